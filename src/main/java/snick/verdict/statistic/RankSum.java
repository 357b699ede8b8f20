package snick.verdict.statistic;

import java.util.Arrays;
import org.apache.commons.statistics.distribution.NormalDistribution;
import snick.quantity.Worded;

/**
 * Mann–Whitney test and Hodges–Lehmann shift of second minus first (M. Hollander, D. A. Wolfe,
 * Nonparametric Statistical Methods, 1973, chapter 4).
 *
 * @param u number of pairs in which the second reading is the larger, ties counting one half, as
 *     R's {@code wilcox.test(second, first)} gives it
 * @param p two-sided: probability of a rank sum at least as far from its mean, given the ties (as
 *     in R's package coin; without ties the same as {@code wilcox.test})
 * @param method how p was found
 * @param hodgesLehmannGf median of all differences of a second and a first reading
 * @param ciGf interval of the shift by inversion of the test; its confidence is the one achieved,
 *     and with very few readings it is below 95 % although the interval spans all differences
 */
public record RankSum(double u, double p, Method method, double hodgesLehmannGf, Interval ciGf) {
  /** How the p-value was found. */
  public enum Method implements Worded {
    /** From all orders, none tied. */
    EXACT,
    /** From all orders that have the ties observed. */
    EXACT_CONDITIONAL,
    /** Too many readings to count all orders: normal, with continuity and tie correction. */
    NORMAL_APPROXIMATION
  }

  private static final double ROUNDING = 1e-9;

  public static RankSum of(Readings first, Readings second) {
    double[] x = second.gramForce();
    double[] y = first.gramForce();
    Ranks ranks = Ranks.of(x, y);
    double u = ranks.sumOfChosen() / 2.0 - x.length * (x.length + 1) / 2.0;
    double[] differences = Shift.differences(x, y);
    if (!RankDistribution.feasible(x.length, y.length)) {
      return new RankSum(
          u,
          normalP(ranks, u),
          Method.NORMAL_APPROXIMATION,
          Shift.median(differences),
          Shift.approximateInterval(differences, x.length, y.length));
    }
    return new RankSum(
        u,
        RankDistribution.of(ranks).twoSided(ranks.sumOfChosen()),
        ranks.tied() ? Method.EXACT_CONDITIONAL : Method.EXACT,
        Shift.median(differences),
        new Shift(x, y, differences, 0.95).exactInterval());
  }

  public static double normalP(Ranks ranks, double u) {
    double m = ranks.chosen();
    double n = ranks.count() - m;
    double total = m + n;
    double ties = ranks.tieTerm() / (total * (total - 1));
    double sd = Math.sqrt(m * n / 12 * (total + 1 - ties));
    double distance = Math.abs(u - m * n / 2) - 0.5;
    return sd > 0 && distance > 0
        ? Math.min(1, 2 * NormalDistribution.of(0, 1).survivalProbability(distance / sd))
        : 1;
  }

  /**
   * Differences sorted, those that differ by rounding alone made equal.
   *
   * @param sorted ascending
   */
  static double[] distinct(double[] sorted) {
    double scale = Math.max(Math.abs(sorted[0]), Math.abs(sorted[sorted.length - 1]));
    double[] kept = new double[sorted.length];
    int count = 0;
    for (double value : sorted) {
      if (count == 0 || value - kept[count - 1] > ROUNDING * scale) {
        kept[count++] = value;
      }
    }
    return Arrays.copyOf(kept, count);
  }
}
