package snick.virtualrig;

import java.util.function.DoubleUnaryOperator;

/**
 * What a rig's own figures make of a cut thread, without noise, at every instant instead of once a
 * period: the truth for its measured step response.
 *
 * @param halfFallNanos time from the cut to the half of the fall, ns
 * @param fallNanos time from 90 % to 10 %, ns
 * @param ringHertz frequency of the ringing, Hz
 * @param dampingRatio damping ratio of the ringing
 */
public record StepTruth(
    double halfFallNanos, double fallNanos, double ringHertz, double dampingRatio) {
  private static final int STEPS_PER_PERIOD = 400;

  /** Truth of a rig. */
  public static StepTruth of(RigSettings rig) {
    double stepNanos = rig.converter().truePeriodNanos() / STEPS_PER_PERIOD;
    double[] course = course(rig, stepNanos / 1e9);
    DoubleUnaryOperator nanosAt = level -> crossing(course, level) * stepNanos;
    double decayPerSecond = 1000 / rig.fixture().ringDecayMillis();
    double angularFrequency = 2 * Math.PI * rig.fixture().ringHertz();
    return new StepTruth(
        nanosAt.applyAsDouble(0.5),
        nanosAt.applyAsDouble(0.1) - nanosAt.applyAsDouble(0.9),
        rig.fixture().ringHertz(),
        decayPerSecond / Math.hypot(decayPerSecond, angularFrequency));
  }

  /** Output of the filter after a fall from 1, at the end of each fine step. */
  private static double[] course(RigSettings rig, double stepSeconds) {
    double[] weights = AmplifierFilter.weights(rig.converter().filter(), STEPS_PER_PERIOD);
    Fall fall = Fall.atOnce(rig.fixture(), 1);
    double[] force = new double[weights.length];
    double[] course = new double[weights.length];
    for (int now = 0; now < course.length; now++) {
      force[now] = fall.meanGramForce(now * stepSeconds, (now + 1) * stepSeconds);
      double before = 1;
      for (int back = 0; back <= now; back++) {
        course[now] += weights[back] * force[now - back];
        before -= weights[back];
      }
      course[now] += before;
    }
    return course;
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
