package snick.verdict.statistic;

import java.util.Arrays;
import java.util.SplittableRandom;
import org.apache.commons.statistics.descriptive.Mean;

/**
 * Share of relabellings whose |difference of means| is at least the observed one; the observed
 * labelling counts as one of them. All relabellings are tried if there are at most 3 000 000;
 * beyond, 100 000 random ones from a fixed seed, and p is (hits + 1)/(trials + 1).
 *
 * @param p two-sided
 * @param relabellings how many were tried
 * @param exact whether those were all
 */
public record Permutation(double p, long relabellings, boolean exact) {
  /** Seed of the random relabellings, so that the same cuts give the same p. */
  public static final long SEED = 20_260_101L;

  private static final long ALL_UP_TO = 3_000_000;
  private static final int TRIALS = 100_000;
  private static final double ROUNDING = 1e-10;

  public static Permutation of(Readings first, Readings second) {
    double[] pooled = pooled(first, second);
    int chosen = second.count();
    double meanOfAll = Mean.of(pooled).getAsDouble();
    Arrays.setAll(pooled, i -> pooled[i] - meanOfAll);
    Relabelling relabelling = new Relabelling(pooled, chosen);
    long all = combinations(pooled.length, chosen);
    return all <= ALL_UP_TO
        ? new Permutation((double) relabelling.hitsOfAll() / all, all, true)
        : new Permutation((relabelling.hitsOfRandom() + 1.0) / (TRIALS + 1.0), TRIALS, false);
  }

  private static double[] pooled(Readings first, Readings second) {
    double[] pooled = Arrays.copyOf(first.gramForce(), first.count() + second.count());
    System.arraycopy(second.gramForce(), 0, pooled, first.count(), second.count());
    return pooled;
  }

  /** Number of ways to choose, or a number above the limit if there are more. */
  static long combinations(int of, int choose) {
    long ways = 1;
    for (int i = 1; i <= Math.min(choose, of - choose); i++) {
      ways = ways * (of - Math.min(choose, of - choose) + i) / i;
      if (ways > ALL_UP_TO) {
        return ALL_UP_TO + 1;
      }
    }
    return ways;
  }

  /** Readings less their mean, the second group at the end. */
  private static final class Relabelling {
    private final double[] centred;
    private final int chosen;

    Relabelling(double[] centred, int chosen) {
      this.centred = centred;
      this.chosen = chosen;
    }

    /** Least |sum of chosen| that counts as hit, rounding allowed for; the sum of all is 0. */
    double leastSum() {
      double sum = 0;
      double scale = 0;
      for (int i = 0; i < centred.length; i++) {
        scale = Math.max(scale, Math.abs(centred[i]));
        sum += i >= centred.length - chosen ? centred[i] : 0;
      }
      return Math.abs(sum) - ROUNDING * scale * centred.length;
    }

    long hitsOfAll() {
      return hits(0, chosen, 0, leastSum());
    }

    private long hits(int from, int left, double sum, double least) {
      if (left == 0) {
        return Math.abs(sum) >= least ? 1 : 0;
      }
      long hits = 0;
      for (int i = from; i <= centred.length - left; i++) {
        hits += hits(i + 1, left - 1, sum + centred[i], least);
      }
      return hits;
    }

    long hitsOfRandom() {
      SplittableRandom random = new SplittableRandom(SEED);
      double[] deck = centred.clone();
      double least = leastSum();
      long hits = 0;
      for (int trial = 0; trial < TRIALS; trial++) {
        hits += Math.abs(sumOfDealt(deck, random)) >= least ? 1 : 0;
      }
      return hits;
    }

    private double sumOfDealt(double[] deck, SplittableRandom random) {
      double sum = 0;
      for (int i = 0; i < chosen; i++) {
        int j = random.nextInt(i, deck.length);
        double dealt = deck[j];
        deck[j] = deck[i];
        deck[i] = dealt;
        sum += dealt;
      }
      return sum;
    }
  }
}
