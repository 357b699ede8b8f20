package snick.verdict.statistic;

import java.util.Arrays;

/**
 * Distribution of the doubled rank sum of a group of given size over all ways to choose it, given
 * the ties: counted by adding one rank at a time.
 */
final class RankDistribution {
  private static final double MOST_STEPS = 1e8;

  /**
   * Ways to reach each sum: whole numbers, exact up to 2^53, so that which group is chosen makes no
   * difference and a p of exactly one in twenty is that.
   */
  private final double[] ways;

  private final double all;
  private final double mean;

  private RankDistribution(double[] ways, double mean) {
    this.ways = ways;
    this.all = Arrays.stream(ways).sum();
    this.mean = mean;
  }

  /** Whether counting takes well under a second. */
  static boolean feasible(int chosen, int others) {
    double all = chosen + others;
    double fewer = Math.min(chosen, others);
    return all * fewer * fewer * 2 * all <= MOST_STEPS;
  }

  static RankDistribution of(Ranks ranks) {
    int[] doubled = ranks.doubled();
    int chosen = ranks.chosen();
    double mean = (double) chosen * (doubled.length + 1);
    if (2 * chosen <= doubled.length) {
      return new RankDistribution(counted(doubled, chosen), mean);
    }
    double[] ofOthers = counted(doubled, doubled.length - chosen);
    int total = Arrays.stream(doubled).sum();
    double[] mirrored = new double[total + 1];
    for (int s = 0; s < ofOthers.length && s <= total; s++) {
      mirrored[total - s] = ofOthers[s];
    }
    return new RankDistribution(mirrored, mean);
  }

  private static double[] counted(int[] doubled, int chosen) {
    int most = Arrays.stream(doubled).sorted().skip(doubled.length - (long) chosen).sum();
    double[][] ways = new double[chosen + 1][most + 1];
    ways[0][0] = 1;
    for (int i = 0; i < doubled.length; i++) {
      for (int k = Math.min(chosen, i + 1); k >= 1; k--) {
        addRank(ways[k], ways[k - 1], doubled[i]);
      }
    }
    return ways[chosen];
  }

  private static void addRank(double[] with, double[] without, int rank) {
    for (int sum = with.length - 1; sum >= rank; sum--) {
      with[sum] += without[sum - rank];
    }
  }

  double atLeast(int doubledSum) {
    return Math.min(1, Arrays.stream(ways, Math.max(0, doubledSum), ways.length).sum() / all);
  }

  double atMost(int doubledSum) {
    return Math.min(1, Arrays.stream(ways, 0, Math.min(doubledSum + 1, ways.length)).sum() / all);
  }

  /** Probability of a sum at least as far from the mean as {@code doubledSum}. */
  double twoSided(int doubledSum) {
    double distance = Math.abs(doubledSum - mean);
    double far = 0;
    for (int sum = 0; sum < ways.length; sum++) {
      far += Math.abs(sum - mean) >= distance ? ways[sum] : 0;
    }
    return Math.min(1, far / all);
  }
}
