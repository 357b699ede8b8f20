package snick.verdict.statistic;

import java.util.Arrays;
import java.util.function.IntPredicate;
import org.apache.commons.statistics.descriptive.Median;
import org.apache.commons.statistics.distribution.NormalDistribution;

/**
 * Interval of the shift between two groups: the shifts that the exact rank-sum test does not
 * reject, each tail at half the error. Between neighbouring differences the order of the shifted
 * readings, and so the test, does not change (D. F. Bauer, J. Am. Stat. Assoc. 67, 1972).
 */
final class Shift {
  private final double[] x;
  private final double[] y;
  private final double[] steps;
  private final double tail;
  private final boolean tiedWithin;
  private final RankDistribution untied;

  /**
   * @param x the group that is shifted
   * @param y the other group
   * @param differences all x − y, ascending
   * @param confidence for example 0.95
   */
  Shift(double[] x, double[] y, double[] differences, double confidence) {
    this.x = x;
    this.y = y;
    this.steps = RankSum.distinct(differences);
    this.tail = (1 - confidence) / 2;
    this.tiedWithin = Ranks.of(x, new double[0]).tied() || Ranks.of(y, new double[0]).tied();
    this.untied = RankDistribution.of(between(0));
  }

  static double[] differences(double[] x, double[] y) {
    double[] differences = new double[x.length * y.length];
    for (int i = 0; i < differences.length; i++) {
      differences[i] = x[i / y.length] - y[i % y.length];
    }
    Arrays.sort(differences);
    return differences;
  }

  static double median(double[] differences) {
    return Median.withDefaults().withCopy(true).evaluate(differences);
  }

  /** The exact interval, closed at both ends. */
  Interval exactInterval() {
    int low = firstTrue(0, steps.length, j -> upperTail(j) > tail);
    int high = firstTrue(0, steps.length, j -> !(lowerTail(j) > tail)) - 1;
    int lowStep = Math.min(Math.max(low, 1), steps.length);
    int highStep = Math.max(Math.min(high, steps.length - 1), 0);
    double outside = upperTail(lowStep - 1) + lowerTail(highStep + 1);
    return new Interval(
        Math.min(steps[lowStep - 1], steps[highStep]),
        Math.max(steps[lowStep - 1], steps[highStep]),
        Math.max(0, 1 - outside));
  }

  /** Smallest index from {@code from} at which {@code test} holds, or one past {@code to}. */
  private static int firstTrue(int from, int to, IntPredicate test) {
    int low = from;
    int high = to + 1;
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (test.test(middle)) {
        high = middle;
      } else {
        low = middle + 1;
      }
    }
    return low;
  }

  private double upperTail(int gap) {
    Ranks ranks = between(gap);
    return distribution(ranks).atLeast(ranks.sumOfChosen());
  }

  private double lowerTail(int gap) {
    Ranks ranks = between(gap);
    return distribution(ranks).atMost(ranks.sumOfChosen());
  }

  private RankDistribution distribution(Ranks ranks) {
    return tiedWithin ? RankDistribution.of(ranks) : untied;
  }

  /** Ranks with x shifted by a number between step {@code gap} − 1 and step {@code gap}. */
  private Ranks between(int gap) {
    double shift;
    if (gap == 0) {
      shift = steps[0] - 1;
    } else if (gap == steps.length) {
      shift = steps[steps.length - 1] + 1;
    } else {
      shift = (steps[gap - 1] + steps[gap]) / 2;
    }
    return Ranks.of(Arrays.stream(x).map(v -> v - shift).toArray(), y);
  }

  /** Large-sample interval (Hollander and Wolfe 1973, section 4.3). */
  static Interval approximateInterval(double[] differences, int m, int n) {
    double z = NormalDistribution.of(0, 1).inverseSurvivalProbability(0.025);
    double sd = Math.sqrt((double) m * n * (m + n + 1) / 12);
    int k = (int) Math.max(1, Math.floor((double) m * n / 2 - z * sd));
    return new Interval(differences[k - 1], differences[differences.length - k], 0.95);
  }
}
