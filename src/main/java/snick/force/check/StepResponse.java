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
 * @param equalAreaNanos device time at which a sudden fall encloses the same area as the samples,
 *     ns: it comes as late after the cut as a steady loading reads late. Both are the mean time of
 *     the response to an impulse, as of any linear system (textbook knowledge, from memory): half
 *     the length of each box of the filter, each pole's time constant, 2ζ/ω of a mass on a spring
 * @param fallNanos time from 90 % to 10 % of the step, ns: the rise time of the chain
 * @param movementNanos time from the first movement to the equal-area instant
 * @param swing how it swung after the fall
 */
public record StepResponse(
    double stepCounts,
    double noiseCounts,
    double samplesPerSecond,
    Estimated equalAreaNanos,
    Estimated fallNanos,
    Movement movementNanos,
    Swing swing) {
  /** By so many samples more the filter is done with the fall: it may have begun unseen. */
  private static final int UNSEEN_SAMPLES = 2;

  /**
   * Time from the first movement to the equal-area instant, as far as samples can tell. The cut
   * lies before the first sample that has moved, and not longer before the last one that has not
   * than the {@link Onset} of the fall can hide below the noise.
   *
   * @param leastNanos least, ns, not negative
   * @param mostNanos most, ns
   */
  public record Movement(double leastNanos, double mostNanos) {}

  /**
   * What came after the fall.
   *
   * @param overshoot largest swing past the level after, in proportion to the step; 0 if none shows
   * @param smallest smallest swing that would show above the noise, in proportion to the step
   * @param ring free oscillation, if one shows above the noise
   */
  public record Swing(double overshoot, double smallest, Optional<Ring> ring) {}

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
    Estimated fall = samples.crossing(0.9).until(ten);
    Estimated instant = samples.equalArea(fall.value());
    double rate = 1e9 / samples.periodNanos();
    double still = samples.nanos(samples.firstMoved() - 1);
    double done = 2 * instant.value() - still + UNSEEN_SAMPLES * samples.periodNanos();
    Optional<Ring> ring =
        RingFit.of(samples.after(done), samples.atRest(), samples.noiseShare(), rate);
    return new StepResponse(
        samples.stepCounts(),
        samples.noiseCounts(),
        rate,
        instant,
        fall,
        movement(samples, instant, Onset.of(ring, rate)),
        new Swing(overshoot(samples, ten.nanos()), samples.visibleShare(), ring));
  }

  private static Movement movement(StepSamples samples, Estimated instant, Onset onset) {
    int moved = samples.firstMoved();
    double hiddenNanos = onset.samplesUntil(samples.visibleShare()) * samples.periodNanos();
    double least = instant.value() - instant.expanded() - samples.nanos(moved);
    return new Movement(
        Math.max(0, least),
        instant.value() + instant.expanded() - samples.nanos(moved - 1) + hiddenNanos);
  }

  private static double overshoot(StepSamples samples, double tenNanos) {
    double lowest = Arrays.stream(samples.after(tenNanos)).min().orElse(0);
    return -lowest > samples.visibleShare() ? -lowest : 0;
  }

  /** Delay of the chain against a known instant of the cut, ns. */
  public Estimated delayNanos(double cutNanos) {
    return new Estimated(equalAreaNanos.value() - cutNanos, equalAreaNanos.standardUncertainty());
  }

  /** Half the sampling rate: above it an oscillation shows folded, if the filter lets it pass. */
  public double highestHertz() {
    return samplesPerSecond / 2;
  }
}
