package snick.cut;

/** The value at a rank among others, found bit by bit without sorting or moving them. */
final class Ranked {
  private Ranked() {}

  /**
   * The value that has {@code rank} values before it in ascending order.
   *
   * @param values none negative
   * @param rank 0 for the least
   */
  static int of(int[] values, int rank) {
    int all = 0;
    for (int value : values) {
      all |= value;
    }
    int found = 0;
    for (int bit = Integer.highestOneBit(all); bit > 0; bit /= 2) {
      if (below(values, found | bit) <= rank) {
        found |= bit;
      }
    }
    return found;
  }

  /** How many are less; counted by the sign of a difference, as values jump about at random. */
  private static int below(int[] values, int limit) {
    int below = 0;
    for (int value : values) {
      below += (value - limit) >>> (Integer.SIZE - 1);
    }
    return below;
  }
}
