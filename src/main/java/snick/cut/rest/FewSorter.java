package snick.cut.rest;

import java.util.Arrays;

/**
 * Sorts few integers by a network of comparators fixed by their number (Batcher's odd–even merge,
 * Knuth, The Art of Computer Programming 3, 5.2.2, algorithm M, from memory): no branch depends on
 * the values, so that noise costs no mispredicted branches. Sixteen, a block at 80 Hz, have a
 * better network of their own. More than {@link #MOST} are sorted by the library. Networks are
 * kept; one thread.
 */
final class FewSorter {
  /** Beyond, comparators outweigh the branches of a quicksort. */
  static final int MOST = 64;

  private final int[][] networks = new int[MOST + 1][];

  /** Sorts {@code values[0..n)} upwards. */
  void sort(int[] values, int n) {
    if (n > MOST) {
      Arrays.sort(values, 0, n);
      return;
    }
    if (n == Sixteen.SIZE) {
      Sixteen.sort(values);
      return;
    }
    int[] pairs = pairs(n);
    for (int k = 0; k < pairs.length; k += 2) {
      int a = values[pairs[k]];
      int b = values[pairs[k + 1]];
      values[pairs[k]] = Math.min(a, b);
      values[pairs[k + 1]] = Math.max(a, b);
    }
  }

  private int[] pairs(int n) {
    if (networks[n] == null) {
      networks[n] = network(n);
    }
    return networks[n];
  }

  private static int[] network(int n) {
    int[] pairs = new int[n * n];
    int size = 0;
    int top = Integer.highestOneBit(Math.max(1, n - 1));
    for (int p = top; p > 0; p /= 2) {
      int offset = 0;
      int distance = p;
      for (int q = top; q >= p; q /= 2) {
        for (int i = 0; i + distance < n; i++) {
          if ((i & p) == offset) {
            pairs[size++] = i;
            pairs[size++] = i + distance;
          }
        }
        distance = q - p;
        offset = p;
      }
    }
    return Arrays.copyOf(pairs, size);
  }
}
