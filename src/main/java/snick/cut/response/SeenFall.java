package snick.cut.response;

import java.util.Arrays;
import java.util.Optional;

/**
 * One fall, cut out of its trace: readings as shares of the force at the break, by the time since
 * the reading had fallen by half. Immutable.
 */
public final class SeenFall {
  /** Rest and loading that are looked at before the fall, s. */
  static final double BEFORE_SECONDS = 0.1;

  /** Longest stretch after the fall that is looked at, s. */
  static final double AFTER_SECONDS = 0.5;

  /** Most readings that are looked at after the fall: at fast rates they cover less time. */
  private static final int MOST_AFTER = 160;

  /** Falls that stand out less from noise teach nothing. */
  private static final double LEAST_NOISES = 20;

  private static final int LEAST_READINGS = 4;

  /** How far the half fall may lie from where it was said to be, s beside two periods. */
  private static final double FARTHEST_SECONDS = 0.04;

  private final double[] seconds;
  private final double[] shares;
  private final double noiseShare;
  private final double ratePerSecond;
  private final double periodSeconds;

  private SeenFall(
      double[] seconds,
      double[] shares,
      double noiseShare,
      double ratePerSecond,
      double periodSeconds) {
    this.seconds = seconds;
    this.shares = shares;
    this.noiseShare = noiseShare;
    this.ratePerSecond = ratePerSecond;
    this.periodSeconds = periodSeconds;
  }

  /**
   * The fall in readings, if it is clear.
   *
   * @param seconds time of each reading since the instant of the break as found, s, increasing
   * @param counts each reading above zero in loading direction, counts
   * @param forceCounts estimate of the force at the break, counts
   * @param ratePerSecond loading rate, counts/s
   * @param noiseCounts standard deviation of one reading, counts
   */
  public static Optional<SeenFall> of(
      double[] seconds,
      double[] counts,
      double forceCounts,
      double ratePerSecond,
      double noiseCounts) {
    int n = seconds.length;
    if (n < 2 * LEAST_READINGS || !(forceCounts > LEAST_NOISES * noiseCounts)) {
      return Optional.empty();
    }
    double period = (seconds[n - 1] - seconds[0]) / (n - 1);
    int at = half(seconds, counts, 0.5 * forceCounts, FARTHEST_SECONDS + 2 * period);
    int from = at;
    while (from > 0 && seconds[from - 1] > seconds[Math.max(0, at)] - BEFORE_SECONDS) {
      from--;
    }
    if (at < 0 || at - from < LEAST_READINGS || n - at < LEAST_READINGS) {
      return Optional.empty();
    }
    double share = (counts[at] - 0.5 * forceCounts) / (counts[at] - counts[at + 1]);
    double half = seconds[at] + share * (seconds[at + 1] - seconds[at]);
    int to = at;
    while (to < n && to < at + MOST_AFTER && seconds[to] < half + AFTER_SECONDS) {
      to++;
    }
    double[] times = Arrays.copyOfRange(seconds, from, to);
    double[] shares = Arrays.copyOfRange(counts, from, to);
    for (int i = 0; i < times.length; i++) {
      times[i] -= half;
      shares[i] /= forceCounts;
    }
    return Optional.of(
        new SeenFall(
            times, shares, noiseCounts / forceCounts, ratePerSecond / forceCounts, period));
  }

  /** Last reading before the fall through a level nearest to time 0; −1 if none is near. */
  private static int half(double[] seconds, double[] counts, double level, double farthest) {
    int nearest = -1;
    double least = farthest;
    for (int i = 0; i + 1 < seconds.length; i++) {
      boolean falls = counts[i] > level && counts[i + 1] <= level;
      if (falls && Math.abs(seconds[i]) < least) {
        nearest = i;
        least = Math.abs(seconds[i]);
      }
    }
    return nearest;
  }

  /** Number of readings. */
  int size() {
    return seconds.length;
  }

  /** Time of reading {@code i} since the half fall, s. */
  double seconds(int i) {
    return seconds[i];
  }

  /** Reading {@code i} above zero over the force. */
  double share(int i) {
    return shares[i];
  }

  /** Standard deviation of one reading over the force. */
  double noiseShare() {
    return noiseShare;
  }

  /** Loading rate over the force, 1/s. */
  double ratePerSecond() {
    return ratePerSecond;
  }

  /** Sampling period, s. */
  double periodSeconds() {
    return periodSeconds;
  }
}
