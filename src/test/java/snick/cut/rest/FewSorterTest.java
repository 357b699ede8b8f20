package snick.cut.rest;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class FewSorterTest {
  private final FewSorter sorter = new FewSorter();

  /**
   * The 0–1 principle: a network of comparators that sorts all sequences of zeros and ones sorts
   * all sequences (Knuth, The Art of Computer Programming 3, 5.3.4, theorem Z, from memory).
   */
  @ParameterizedTest
  @ValueSource(ints = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17})
  void sortsAllZerosAndOnes(int n) {
    assertThat(IntStream.range(0, 1 << n).filter(bits -> !sorts(n, bits)).findFirst()).isEmpty();
  }

  private boolean sorts(int n, int bits) {
    int[] values = IntStream.range(0, n).map(i -> bits >> i & 1).toArray();
    sorter.sort(values, n);
    int zeros = n - Integer.bitCount(bits);
    return IntStream.range(0, n).allMatch(i -> values[i] == (i < zeros ? 0 : 1));
  }

  /** Beside the library, on both sides of the number from which it takes over. */
  @ParameterizedTest
  @MethodSource("sizes")
  void sortsLikeTheLibraryAndLeavesTheRest(int n) {
    Random random = new Random(n);
    for (int turn = 0; turn < 50; turn++) {
      int[] values = random.ints(n + 3).map(v -> v >> random.nextInt(32)).toArray();
      int[] expected = values.clone();
      Arrays.sort(expected, 0, n);
      sorter.sort(values, n);
      assertThat(values).isEqualTo(expected);
    }
  }

  private static int[] sizes() {
    return IntStream.rangeClosed(0, FewSorter.MOST + 36).toArray();
  }
}
