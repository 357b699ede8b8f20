package snick.cut;

/**
 * Finds values by their rank without sorting all (Hoare's way, from memory). Which part a value
 * goes to is counted by the sign of a difference, not by a branch: in noise, half of the branches
 * would be mispredicted.
 */
final class Selection {
  private Selection() {}

  /**
   * Moves the values of {@code [from, to)} so that the one at {@code at} is that of a sorted array:
   * none before it is greater, none behind it less.
   */
  static void place(int[] values, int from, int to, int at) {
    int begin = from;
    int end = to;
    while (end - begin > 1) {
      int pivot = middle(values[begin], values[(begin + end) / 2], values[end - 1]);
      int split = split(values, begin, end, pivot);
      if (split == begin) {
        split = split(values, begin, end, pivot + 1L);
        if (at < split) {
          return;
        }
      }
      begin = at < split ? begin : split;
      end = at < split ? split : end;
    }
  }

  private static int middle(int p, int q, int r) {
    return Math.max(Math.min(p, q), Math.min(Math.max(p, q), r));
  }

  /** Moves all values below a limit before all others; returns the index of the first other. */
  private static int split(int[] values, int from, int to, long limit) {
    int split = from;
    for (int i = from; i < to; i++) {
      int value = values[i];
      values[i] = values[split];
      values[split] = value;
      split += (int) ((value - limit) >>> (Long.SIZE - 1));
    }
    return split;
  }
}
