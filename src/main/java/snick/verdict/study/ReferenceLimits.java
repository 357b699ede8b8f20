package snick.verdict.study;

import org.apache.commons.statistics.distribution.TDistribution;
import snick.verdict.statistic.Readings;

/**
 * Limits for values to come, from a baseline whose mean and scatter are themselves only known from
 * {@code count} values: prediction limits (Hahn 1970), so wide that a value of the same normal
 * distribution stands outside in a share {@code level} of cases however short the baseline was.
 * Limits of a known mean and scatter would be crossed far more often (Quesenberry 1993).
 *
 * @param count values in the baseline, 2 or more
 * @param centre their mean
 * @param sd their standard deviation (n − 1), above 0
 * @param level share of in-control values outside each limit, both sides together, 0 to 1
 * @param t Student's quantile of that level for {@code count − 1} degrees of freedom
 */
public record ReferenceLimits(int count, double centre, double sd, double level, double t) {
  /** Of 20 values to come, 59 limits are asked; 5 % are shared out among them. */
  public static final double USUAL_LEVEL = 0.05 / 59;

  /** Limits from a baseline of that count, mean and standard deviation. */
  ReferenceLimits(int count, double centre, double sd, double level) {
    this(
        count,
        centre,
        sd,
        level,
        TDistribution.of(count - 1.0).inverseSurvivalProbability(level / 2));
  }

  /** Limits from {@code baseline}, which scatters. */
  public static ReferenceLimits of(Readings baseline, double level) {
    return new ReferenceLimits(baseline.count(), baseline.meanGf(), baseline.sdGf(), level);
  }

  /** Upper limit of a single value. */
  public double upper() {
    return centre + half(1 + 1.0 / count);
  }

  /** Lower limit of a single value. */
  public double lower() {
    return centre - half(1 + 1.0 / count);
  }

  /** Upper limit of the range of two successive values. */
  public double upperRange() {
    return half(2);
  }

  /**
   * Limits of a weighted mean that began at {@link #centre}: the scatter of the values in it and
   * that of the centre where it has replaced it.
   *
   * @param lambda weight of the newest value, above 0 and at most 1
   * @param values how many values are in it, from 1
   */
  double weightedHalfWidth(double lambda, int values) {
    double left = Math.pow(1 - lambda, values);
    return half(lambda / (2 - lambda) * (1 - left * left) + (1 - left) * (1 - left) / count);
  }

  /** Half-width for a difference whose variance is {@code variances} times that of a value. */
  private double half(double variances) {
    return t * sd * Math.sqrt(variances);
  }

  /** False alarms to expect among {@code values} in control: three limits each, the first two. */
  public double expectedFalseAlarms(int values) {
    return values == 0 ? 0 : (3.0 * values - 1) * level;
  }
}
