package snick.verdict.statistic;

import java.util.Optional;
import org.apache.commons.statistics.distribution.TDistribution;
import org.apache.commons.statistics.inference.DataDispersion;
import org.apache.commons.statistics.inference.TTest;

/**
 * Welch's t-test of second minus first (B. L. Welch, Biometrika 34, 1947), degrees of freedom by
 * Satterthwaite.
 *
 * @param t statistic, negative if the second mean is lower
 * @param degreesOfFreedom above 0
 * @param p two-sided
 * @param standardErrorGf standard error of the difference of means, above 0
 * @param differenceGf second mean minus first
 * @param ci95Gf 95 % interval of the difference
 */
public record Welch(
    double t,
    double degreesOfFreedom,
    double p,
    double standardErrorGf,
    double differenceGf,
    Interval ci95Gf) {

  /** Empty if neither group scatters: then the statistic does not exist. Both need 2 readings. */
  public static Optional<Welch> of(Readings first, Readings second) {
    if (first.allEqual() && second.allEqual()) {
      return Optional.empty();
    }
    TTest.Result test =
        TTest.withDefaults()
            .with(DataDispersion.HETEROSCEDASTIC)
            .test(second.gramForce(), first.gramForce());
    double difference = second.meanGf() - first.meanGf();
    double error = standardError(first.sdGf(), first.count(), second.sdGf(), second.count());
    double df = test.getDegreesOfFreedom();
    return Optional.of(
        new Welch(
            test.getStatistic(),
            df,
            test.getPValue(),
            error,
            difference,
            interval(difference, error, df, 0.95)));
  }

  /**
   * Two-sided p of Student's test with one pooled scatter; both groups need 2 readings, and one of
   * them scatter.
   */
  public static double pooledP(Readings first, Readings second) {
    return TTest.withDefaults()
        .with(DataDispersion.HOMOSCEDASTIC)
        .test(second.gramForce(), first.gramForce())
        .getPValue();
  }

  public static double standardError(double sd1, int n1, double sd2, int n2) {
    return Math.hypot(sd1 / Math.sqrt(n1), sd2 / Math.sqrt(n2));
  }

  /** Satterthwaite's degrees of freedom. */
  public static double degreesOfFreedom(double sd1, int n1, double sd2, int n2) {
    double v1 = sd1 * sd1 / n1;
    double v2 = sd2 * sd2 / n2;
    return (v1 + v2) * (v1 + v2) / (v1 * v1 / (n1 - 1) + v2 * v2 / (n2 - 1));
  }

  private static Interval interval(double centre, double error, double df, double confidence) {
    double half = error * TDistribution.of(df).inverseSurvivalProbability((1 - confidence) / 2);
    return new Interval(centre - half, centre + half, confidence);
  }
}
