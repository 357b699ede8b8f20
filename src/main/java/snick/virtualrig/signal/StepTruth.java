package snick.virtualrig.signal;

import java.util.function.DoubleUnaryOperator;
import snick.virtualrig.bench.ForceAfterBreak;
import snick.virtualrig.bench.Oscillator;
import snick.virtualrig.settings.FilterShape;
import snick.virtualrig.settings.FixtureSettings;
import snick.virtualrig.settings.Mechanics;
import snick.virtualrig.settings.RigSettings;

/**
 * What a rig's own figures make of a cut thread, without noise, at every instant instead of once a
 * period: the truth for its measured step response.
 *
 * @param delayNanos time by which a steady loading reads late, ns
 * @param fallNanos time from 90 % to 10 %, ns
 * @param ringHertz frequency of the ringing, Hz
 * @param dampingRatio damping ratio of the ringing
 */
public record StepTruth(
    double delayNanos, double fallNanos, double ringHertz, double dampingRatio) {
  private static final int STEPS_PER_PERIOD = 400;

  /** Time constants after which a pole has passed far more than nine tenths. */
  private static final double POLE_LENGTHS = 5;

  /**
   * Truth of a rig.
   *
   * @throws java.util.NoSuchElementException if its fixture is rigid: then nothing rings
   */
  public static StepTruth of(RigSettings rig) {
    double stepNanos = rig.converter().truePeriodNanos() / STEPS_PER_PERIOD;
    double[] course = course(rig, stepNanos / 1e9);
    DoubleUnaryOperator nanosAt = level -> crossing(course, level) * stepNanos;
    Mechanics ring = rig.fixture().mechanics().orElseThrow();
    double damping = ring.dampingRatio();
    return new StepTruth(
        delaySeconds(rig, ring) * 1e9,
        nanosAt.applyAsDouble(0.1) - nanosAt.applyAsDouble(0.9),
        ring.resonanceHertz() * StrictMath.sqrt(1 - damping * damping),
        damping);
  }

  /** Boxes and poles of the filter, mean time of the parting, and 2ζ/ω of the fixture. */
  private static double delaySeconds(RigSettings rig, Mechanics ring) {
    double parting = rig.fixture().parting().lengthSeconds();
    return rig.converter().filterDelayNanos() / 1e9
        + parting * ForceAfterBreak.of(rig.fixture(), 1).meanGramForce(0, parting)
        + ring.dampingRatio() / (Math.PI * ring.resonanceHertz());
  }

  /** Output of the filter after a fall from 1, at the end of each fine step. */
  private static double[] course(RigSettings rig, double stepSeconds) {
    double[] weights = AmplifierFilter.weights(rig.converter().filter(), STEPS_PER_PERIOD);
    double[] fallen = fallen(rig, stepSeconds, weights.length);
    double[] course = new double[fallen.length];
    for (int now = 0; now < course.length; now++) {
      course[now] = 1;
      for (int back = 0; back <= Math.min(now, weights.length - 1); back++) {
        course[now] -= weights[back] * fallen[now - back];
      }
    }
    return course;
  }

  /** What has fallen of 1 in front of the boxes, until filter and first swing are over. */
  private static double[] fallen(RigSettings rig, double stepSeconds, int filterSteps) {
    FixtureSettings fixture = rig.fixture();
    FilterShape filter = rig.converter().filter();
    double poleSteps = filter.polePeriods() * STEPS_PER_PERIOD;
    Mechanics mechanics = fixture.mechanics().orElseThrow();
    double mechanicalSeconds = fixture.parting().lengthSeconds() + 1 / mechanics.resonanceHertz();
    double poleStepsLong = POLE_LENGTHS * filter.poles() * poleSteps;
    double steps = filterSteps + poleStepsLong + mechanicalSeconds / stepSeconds;
    ForceAfterBreak fall = ForceAfterBreak.of(fixture, 1);
    Poles poles = new Poles(filter.poles(), poleSteps);
    Oscillator oscillator = new Oscillator(mechanics);
    double[] fallen = new double[(int) Math.ceil(steps)];
    for (int i = 0; i < fallen.length; i++) {
      double force = 1 - fall.meanGramForce(i * stepSeconds, (i + 1) * stepSeconds);
      fallen[i] = poles.pass(oscillator.advance(force, stepSeconds, false));
    }
    return fallen;
  }

  /** Fine steps after the cut at which the course first passes {@code level}. */
  private static double crossing(double[] course, double level) {
    int i = 1;
    while (course[i] > level) {
      i++;
    }
    return i + (course[i - 1] - level) / (course[i - 1] - course[i]);
  }
}
