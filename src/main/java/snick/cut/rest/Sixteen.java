package snick.cut.rest;

/**
 * Sorts sixteen integers by the network of sixty comparators found by M. W. Green in 1969 (Knuth,
 * The Art of Computer Programming 3, 5.3.4, from memory): straight on, without a branch or a table.
 */
final class Sixteen {
  static final int SIZE = 16;

  private Sixteen() {}

  /** Sorts {@code v[0..16)} upwards. Comparators between two empty lines touch different places. */
  static void sort(int[] v) {
    order(v, 0, 1);
    order(v, 2, 3);
    order(v, 4, 5);
    order(v, 6, 7);
    order(v, 8, 9);
    order(v, 10, 11);
    order(v, 12, 13);
    order(v, 14, 15);

    order(v, 0, 2);
    order(v, 4, 6);
    order(v, 8, 10);
    order(v, 12, 14);
    order(v, 1, 3);
    order(v, 5, 7);
    order(v, 9, 11);
    order(v, 13, 15);

    order(v, 0, 4);
    order(v, 8, 12);
    order(v, 1, 5);
    order(v, 9, 13);
    order(v, 2, 6);
    order(v, 10, 14);
    order(v, 3, 7);
    order(v, 11, 15);

    order(v, 0, 8);
    order(v, 1, 9);
    order(v, 2, 10);
    order(v, 3, 11);
    order(v, 4, 12);
    order(v, 5, 13);
    order(v, 6, 14);
    order(v, 7, 15);

    order(v, 5, 10);
    order(v, 6, 9);
    order(v, 3, 12);
    order(v, 13, 14);
    order(v, 4, 8);
    order(v, 7, 11);
    order(v, 1, 2);

    order(v, 1, 4);
    order(v, 7, 13);
    order(v, 2, 8);
    order(v, 11, 14);

    order(v, 2, 4);
    order(v, 5, 6);
    order(v, 9, 10);
    order(v, 11, 13);
    order(v, 3, 8);
    order(v, 7, 12);

    order(v, 6, 8);
    order(v, 10, 12);
    order(v, 3, 5);
    order(v, 7, 9);

    order(v, 3, 4);
    order(v, 5, 6);
    order(v, 7, 8);
    order(v, 9, 10);
    order(v, 11, 12);

    order(v, 6, 7);
    order(v, 8, 9);
  }

  private static void order(int[] v, int i, int j) {
    int a = v[i];
    int b = v[j];
    v[i] = Math.min(a, b);
    v[j] = Math.max(a, b);
  }
}
