package snick.cut;

/**
 * What the detector is told beforehand. Immutable; all forces in counts, all times in ns. The
 * defaults suit any rig: levels follow from the measured noise.
 *
 * @param minimumForceCounts events whose largest reading above zero is smaller are ignored, counts,
 *     0 for none (default)
 * @param maximumEventNanos an event that lasts longer ends as disturbed and its level is taken for
 *     the new zero, 1 s to 10 min, default 60 s
 * @param restKeptNanos rest kept before an event in its trace, 0.1 s to 60 s, default 2 s
 * @param settleNanos rest awaited after a fall before the event ends, 20 ms to 10 s, default 150 ms
 * @param severedFallNanos a fall from 90 % to 10 % that takes longer than this and longer than the
 *     amplifier's filter explains is no parting, 1 ms to 1 s, default 25 ms
 */
public record DetectorSettings(
    double minimumForceCounts,
    long maximumEventNanos,
    long restKeptNanos,
    long settleNanos,
    long severedFallNanos) {

  private static final long MILLISECOND = 1_000_000L;
  private static final long SECOND = 1000 * MILLISECOND;

  public DetectorSettings {
    if (!(minimumForceCounts >= 0 && minimumForceCounts < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(
          "minimum force of " + minimumForceCounts + " counts is not a finite number from 0 up");
    }
    range("maximum event", maximumEventNanos, SECOND, 600 * SECOND);
    range("rest kept before", restKeptNanos, 100 * MILLISECOND, 60 * SECOND);
    range("rest awaited after", settleNanos, 20 * MILLISECOND, 10 * SECOND);
    range("longest fall of a parting", severedFallNanos, MILLISECOND, SECOND);
  }

  /** The defaults named above. */
  public static DetectorSettings defaults() {
    return new DetectorSettings(0, 60 * SECOND, 2 * SECOND, 150 * MILLISECOND, 25 * MILLISECOND);
  }

  /** These settings with another smallest force, in counts. */
  public DetectorSettings withMinimumForceCounts(double counts) {
    return new DetectorSettings(
        counts, maximumEventNanos, restKeptNanos, settleNanos, severedFallNanos);
  }

  private static void range(String what, long nanos, long least, long most) {
    if (!(nanos >= least && nanos <= most)) {
      throw new IllegalArgumentException(
          what + " of " + nanos + " ns is outside " + least + " ns to " + most + " ns");
    }
  }
}
