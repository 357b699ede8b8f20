package snick.cut;

import java.util.Optional;

/**
 * Force at the break from the samples around it, by the method that suits the ramp's length. Keeps
 * from cut to cut what depends on the sampling rate only: detectors that work one after the other
 * may share it. One thread at a time; estimates do not depend on those before.
 */
public final class BreakEstimator {
  /** How far the break can lie from the middle of the fall, periods. */
  private static final double FARTHEST = 1.5;

  /** Longest ramp fitted whole, samples and periods: its cost grows with the third power. */
  private static final int MOST_BRIEF = 40;

  private final RampEstimator ramp = new RampEstimator();

  /** Nothing is kept yet. */
  public BreakEstimator() {}

  /** The estimate for a loading that begins at sample {@code onset} and ends with {@code fall}. */
  BreakEstimate estimate(
      Samples s, int onset, Fall fall, double after, double noise, BreakEstimate line) {
    double middle = 0.5 * (s.time[fall.top()] + s.time[fall.bottom()]);
    double near = Math.max(middle - FARTHEST, Math.min(middle + FARTHEST, line.breakTime()));
    Optional<BreakEstimate> full = ramp.estimate(s, onset, fall, after, noise, near, line);
    return full.isPresent() ? full.get() : brief(s, onset, fall, after, noise, line).orElse(line);
  }

  private static Optional<BreakEstimate> brief(
      Samples s, int onset, Fall fall, double after, double noise, BreakEstimate line) {
    boolean few = fall.bottom() - onset < MOST_BRIEF;
    boolean near = Math.abs(line.breakTime() - s.time[onset]) < MOST_BRIEF;
    return few && near
        ? BriefEstimator.estimate(s, onset, fall, after, noise, line)
        : Optional.empty();
  }
}
