package snick.verdict.statistic;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.SplittableRandom;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Against plain counting of every relabelling, by the definition (Fisher's; any textbook). Invented
 * readings, in tenths so that sums tie.
 */
class PermutationTest {
  @ParameterizedTest
  @CsvSource({"2, 2", "3, 2", "2, 60", "60, 2", "5, 9", "9, 5", "10, 10", "1, 7", "3, 40"})
  void everyRelabellingIsCountedOnce(int first, int second) {
    SplittableRandom random = new SplittableRandom(first * 1_000L + second);
    for (int draw = 0; draw < 5; draw++) {
      double[] before = tenths(random, first, 0);
      double[] after = tenths(random, second, draw % 2 == 0 ? 0 : 9);
      Permutation permutation =
          Permutation.of(
              Readings.ofGramForce("before", before), Readings.ofGramForce("after", after));
      assertThat(permutation.exact()).isTrue();
      assertThat(Math.round(permutation.p() * permutation.relabellings()))
          .isEqualTo(counted(before, after));
    }
  }

  private static double[] tenths(SplittableRandom random, int count, int lower) {
    return random.ints(count, 1000 - lower, 1020 - lower).mapToDouble(i -> i / 10.0).toArray();
  }

  /** In whole tenths, which do not round: |n·sum of chosen − chosen·sum of all| as observed. */
  private static long counted(double[] before, double[] after) {
    long[] all = new long[before.length + after.length];
    long total = 0;
    long observed = 0;
    for (int i = 0; i < all.length; i++) {
      all[i] = Math.round(10 * (i < before.length ? before[i] : after[i - before.length]));
      total += all[i];
      observed += i < before.length ? 0 : all[i];
    }
    long least = Math.abs(all.length * observed - after.length * total);
    return counted(all, 0, after.length, 0, total * after.length, least);
  }

  private static long counted(long[] all, int from, int left, long sum, long expected, long least) {
    if (left == 0) {
      return Math.abs(all.length * sum - expected) >= least ? 1 : 0;
    }
    long hits = 0;
    for (int i = from; i <= all.length - left; i++) {
      hits += counted(all, i + 1, left - 1, sum + all[i], expected, least);
    }
    return hits;
  }
}
