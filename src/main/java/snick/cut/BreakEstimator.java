package snick.cut;

/** Force at the break from the samples around it, by the method that suits the ramp's length. */
final class BreakEstimator {
  /** How far the break can lie from the middle of the fall, periods. */
  private static final double FARTHEST = 1.5;

  private final RampEstimator ramp = new RampEstimator();

  /** The estimate for a loading that begins at sample {@code onset} and ends with {@code fall}. */
  BreakEstimate estimate(
      Samples s, int onset, Fall fall, double after, double noise, BreakEstimate line) {
    double middle = 0.5 * (s.time[fall.top()] + s.time[fall.bottom()]);
    double near = Math.max(middle - FARTHEST, Math.min(middle + FARTHEST, line.breakTime()));
    return ramp.estimate(s, onset, fall, after, noise, near, line)
        .or(() -> BriefEstimator.estimate(s, onset, fall, after, noise, line))
        .orElse(line);
  }
}
