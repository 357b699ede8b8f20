package snick.verdict.statistic;

import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.stream.Stream;
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

    /**
     * Sums of a half are few and each is met with those of the other (from memory: Horowitz, Sahni
     * 1974).
     */
    long hitsOfAll() {
      int middle = centred.length / 2;
      int few = Math.min(chosen, centred.length - chosen);
      double[][] low = sumsBySize(Arrays.copyOf(centred, middle), few);
      double[][] high = sumsBySize(Arrays.copyOfRange(centred, middle, centred.length), few);
      double least = leastSum();
      long hits = 0;
      for (int taken = Math.max(0, few - high.length + 1); taken < low.length; taken++) {
        hits += far(low[taken], high[few - taken], least);
      }
      return hits;
    }

    /** Every sum of so many values, at most {@code most}, ascending; by how many values. */
    private static double[][] sumsBySize(double[] values, int most) {
      double[][] sums = new double[Math.min(most, values.length) + 1][];
      Arrays.setAll(sums, size -> new double[(int) combinations(values.length, size)]);
      addSums(sums, new int[sums.length], values, 0, 0, 0);
      Stream.of(sums).forEach(Arrays::sort);
      return sums;
    }

    private static void addSums(
        double[][] sums, int[] found, double[] values, int from, int taken, double sum) {
      sums[taken][found[taken]++] = sum;
      for (int i = from; i < values.length && taken + 1 < sums.length; i++) {
        addSums(sums, found, values, i + 1, taken + 1, sum + values[i]);
      }
    }

    /** Pairs, one of each, whose |sum| is at least {@code least}; both ascending. */
    private static long far(double[] some, double[] others, double least) {
      int above = others.length;
      int below = others.length;
      long hits = 0;
      for (double sum : some) {
        while (above > 0 && sum + others[above - 1] >= least) {
          above--;
        }
        while (below > 0 && sum + others[below - 1] > -least) {
          below--;
        }
        hits += least > 0 ? others.length - above + below : others.length;
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
