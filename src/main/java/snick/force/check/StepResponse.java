package snick.force.check;

import java.util.Arrays;
import java.util.Optional;
import snick.cut.Trace;

/**
 * What the chain makes of a step of force: a mass hangs by a thread, the thread is cut.
 *
 * @param stepCounts level before less level after, counts, positive
 * @param noiseCounts standard deviation of one sample before the fall, counts, at least 1
 * @param samplesPerSecond sampling rate as measured
 * @param halfFallNanos device time at which the fall was half done, ns
 * @param fallNanos time from 90 % to 10 % of the step, ns: the rise time of the chain
 * @param movementNanos time from the first movement to the half fall
 * @param overshoot largest swing past the level after, in proportion to the step; 0 if none shows
 * @param smallestSwing smallest swing that would show above the noise, in proportion to the step
 * @param ring free oscillation after the fall, if one shows above the noise
 */
public record StepResponse(
    double stepCounts,
    double noiseCounts,
    double samplesPerSecond,
    Estimated halfFallNanos,
    Estimated fallNanos,
    Movement movementNanos,
    double overshoot,
    double smallestSwing,
    Optional<Ring> ring) {
  private static final int ORDER = 5;
  private static final double FACTORIAL_OF_ORDER = 120;

  /**
   * Time from the first movement to the half fall, as far as samples can tell. The cut lies before
   * the first sample that has moved, and not longer before the last one that has not than the fall
   * can hide below the noise: a filter of up to fourth order with boxes of one sample, and a
   * parting within one sample, begin as x⁵/5! (x in samples).
   *
   * @param leastNanos least, ns
   * @param mostNanos most, ns
   */
  public record Movement(double leastNanos, double mostNanos) {}

  /**
   * A free oscillation, as far as the sampling rate lets it show: above half the rate it appears
   * folded to a lower, false frequency, and the filter weakens it.
   *
   * @param hertz frequency, Hz
   * @param dampingRatio damping ratio, 0 to 0.7
   */
  public record Ring(Estimated hertz, Estimated dampingRatio) {}

  /**
   * Reads the step out of a trace that holds rest under load, the fall and rest without load.
   *
   * @param polarity +1 if load raises the reading, −1 if it lowers it
   * @throws IllegalArgumentException if no clear step is in it, or too little rest around it
   */
  public static StepResponse of(Trace trace, int polarity) {
    StepSamples samples = StepSamples.of(trace, polarity);
    StepSamples.Crossing ten = samples.crossing(0.1);
    StepSamples.Crossing half = samples.crossing(0.5);
    Movement movement = movement(samples, half.nanos());
    double rate = 1e9 / samples.periodNanos();
    double[] settled = samples.after(half.nanos() + movement.mostNanos());
    return new StepResponse(
        samples.stepCounts(),
        samples.noiseCounts(),
        rate,
        half.estimated(),
        samples.crossing(0.9).until(ten),
        movement,
        overshoot(samples, ten.nanos()),
        samples.visibleShare(),
        RingFit.of(settled, samples.atRest(), samples.noiseShare(), rate));
  }

  private static Movement movement(StepSamples samples, double halfNanos) {
    int moved = samples.firstMoved();
    double hidden = Math.pow(FACTORIAL_OF_ORDER * samples.visibleShare(), 1.0 / ORDER);
    return new Movement(
        halfNanos - samples.nanos(moved),
        halfNanos - samples.nanos(moved - 1) + Math.min(1, hidden) * samples.periodNanos());
  }

  private static double overshoot(StepSamples samples, double tenNanos) {
    double lowest = Arrays.stream(samples.after(tenNanos)).min().orElse(0);
    return -lowest > samples.visibleShare() ? -lowest : 0;
  }

  /** Delay of the chain against a known instant of the cut, ns: half fall less that instant. */
  public Estimated delayNanos(double cutNanos) {
    return new Estimated(halfFallNanos.value() - cutNanos, halfFallNanos.standardUncertainty());
  }

  /** Half the sampling rate: above it an oscillation shows folded, if the filter lets it pass. */
  public double highestHertz() {
    return samplesPerSecond / 2;
  }
}
