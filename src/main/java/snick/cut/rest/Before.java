package snick.cut.rest;

/**
 * What the stream had told before an event began: with the samples of its trace, all that its
 * result is derived from. Immutable.
 *
 * @param began index in the trace of the sample that began the event
 * @param polarity sense of the loading, +1 or −1
 * @param usualPolarity that of the loadings before, 0 if there was none
 * @param rest the rest that it came from
 * @param periodNanos time from one sample to the next, ns, above 0
 * @param zero what was known of the zero
 */
public record Before(
    int began, int polarity, int usualPolarity, AtRest rest, double periodNanos, Zero zero) {
  public Before {
    boolean sides = Math.abs(polarity) == 1 && Math.abs(usualPolarity) <= 1;
    if (began < 0 || !sides || !rest.canBe() || !isPositive(periodNanos)) {
      throw new IllegalArgumentException(
          "what came before cannot be: event from sample "
              + began
              + ", polarity "
              + polarity
              + " after "
              + usualPolarity
              + ", level "
              + rest.levelCounts
              + " and "
              + rest.fromCounts
              + ", noise "
              + rest.noiseCounts
              + ", band "
              + rest.bandCounts
              + " counts, period "
              + periodNanos
              + " ns");
    }
  }

  private static boolean isPositive(double value) {
    return value > 0 && value < Double.POSITIVE_INFINITY;
  }

  public Before beganAt(int index) {
    return new Before(index, polarity, usualPolarity, rest, periodNanos, zero);
  }

  /**
   * The rest before a loading.
   *
   * @param levelCounts reading at rest, counts
   * @param fromCounts level from which the loading rose, swings averaged out, counts
   * @param noiseCounts standard deviation of one sample at rest, counts, above 0
   * @param bandCounts distance from rest at which loading begins, counts, above 0
   * @param sure whether the rest was long enough to trust level and noise
   * @param settled whether the reading was at rest; else the last loading's ringing or remainder
   *     was not over
   */
  public record AtRest(
      double levelCounts,
      double fromCounts,
      double noiseCounts,
      double bandCounts,
      boolean sure,
      boolean settled) {
    private boolean canBe() {
      boolean levels = Double.isFinite(levelCounts) && Double.isFinite(fromCounts);
      return levels && isPositive(noiseCounts) && isPositive(bandCounts);
    }
  }

  /**
   * The zero as it was followed from rest to rest.
   *
   * @param counts reading without load, counts
   * @param varianceCounts2 its variance, counts²
   * @param driftCountsPerSecond how fast it drifts, counts/s
   * @param driftVariance variance of that, counts²/s²
   * @param covariance of both, counts²/s
   * @param atNanos device time of the above, ns
   */
  public record Zero(
      double counts,
      double varianceCounts2,
      double driftCountsPerSecond,
      double driftVariance,
      double covariance,
      long atNanos) {
    /** Reading without load expected at a time, counts. */
    public double countsAt(long nanos) {
      return counts + driftCountsPerSecond * secondsUntil(nanos);
    }

    /** Covariance of the readings without load at two times, counts²; the variance at one. */
    public double covarianceCounts2(long nanos, long otherNanos) {
      double a = secondsUntil(nanos);
      double b = secondsUntil(otherNanos);
      return varianceCounts2 + covariance * (a + b) + driftVariance * a * b;
    }

    private double secondsUntil(long nanos) {
      return Math.max(0, (nanos - atNanos) / 1e9);
    }
  }
}
