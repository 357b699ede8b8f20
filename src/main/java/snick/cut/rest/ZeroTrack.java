package snick.cut.rest;

/**
 * The zero followed from rest to rest: level and drift with their covariance, by a Kalman filter
 * (Kalman 1960, from memory) of a level that drifts at a slowly changing rate. One thread;
 * allocates nothing but what {@link #at} returns.
 */
public final class ZeroTrack {
  /** A level wanders by about a tenth of the noise in a second (1/f noise; an assumption). */
  private static final double WANDER_NOISES_PER_ROOT_SECOND = 0.1;

  /** Drift changes by about a fifth of the noise in a second within ten seconds (an assumption). */
  private static final double DRIFT_WANDER = 0.06;

  /** Drift not known yet: 0.25 gf/s at the least noise thought of, 0.03 gf, are eight of these. */
  private static final double FIRST_DRIFT_NOISES_PER_SECOND = 10;

  /**
   * A level farther off than so many standard deviations counts as one that is as far off, so that
   * creep is not taken for drift; chosen on seeds 1 to 80 of the random rigs.
   */
  private static final double MOST_OFF = 2;

  private boolean known;
  private double level;
  private double variance;
  private double drift;
  private double driftVariance;
  private double covariance;
  private long atNanos;

  /** Nothing is known. */
  public void forget() {
    known = false;
  }

  /** Takes a level of the rest and its standard uncertainty; begins anew with the first. */
  public void take(long nanos, double counts, double uncertaintyCounts, double noiseCounts) {
    if (!known) {
      begin(nanos, counts, uncertaintyCounts, noiseCounts);
      return;
    }
    moveTo(nanos, noiseCounts);
    double spread = variance + uncertaintyCounts * uncertaintyCounts;
    double gain = variance / spread;
    double driftGain = covariance / spread;
    double most = MOST_OFF * Math.sqrt(spread);
    double off = Math.max(-most, Math.min(most, counts - level));
    level += gain * off;
    drift += driftGain * off;
    driftVariance -= driftGain * covariance;
    covariance -= gain * covariance;
    variance -= gain * variance;
  }

  /** Begins with this level, the drift unknown. */
  public void begin(long nanos, double counts, double uncertaintyCounts, double noiseCounts) {
    known = true;
    atNanos = nanos;
    level = counts;
    variance = uncertaintyCounts * uncertaintyCounts;
    drift = 0;
    driftVariance = StrictMath.pow(FIRST_DRIFT_NOISES_PER_SECOND * noiseCounts, 2);
    covariance = 0;
  }

  private void moveTo(long nanos, double noiseCounts) {
    double s = Math.max(0, (nanos - atNanos) / 1e9);
    double wander = StrictMath.pow(WANDER_NOISES_PER_ROOT_SECOND * noiseCounts, 2);
    double driftWander = StrictMath.pow(DRIFT_WANDER * noiseCounts, 2);
    level += drift * s;
    variance +=
        2 * covariance * s + driftVariance * s * s + wander * s + driftWander * s * s * s / 3;
    covariance += driftVariance * s + driftWander * s * s / 2;
    driftVariance += driftWander * s;
    atNanos = nanos;
  }

  /** How fast it drifts; 0 if nothing is known of that, counts/s. */
  public double driftCountsPerSecond() {
    return known ? drift : 0;
  }

  /** What is known of the zero at a time. */
  public Before.Zero at(long nanos, double noiseCounts) {
    moveTo(nanos, noiseCounts);
    return new Before.Zero(level, variance, drift, driftVariance, covariance, nanos);
  }
}
