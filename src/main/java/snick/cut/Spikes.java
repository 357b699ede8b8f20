package snick.cut;

/**
 * Spikes of one reading or two: readings far outside their neighbours while the neighbours agree
 * with each other as a smooth course does. A parting seen through a filter of several periods has
 * no such reading, and no hand loads and unloads within two readings unless the rate is slow.
 */
final class Spikes {
  /** Readings that a spike lasts at most. */
  static final int LONGEST = 2;

  /** The chance of noise alone reaching this is below one in 10⁸ readings. */
  private static final double NOISES = 6;

  /** Share of the neighbours' own bend that a reading between them may stand off. */
  private static final double COURSES = 3;

  private Spikes() {}

  /**
   * Marks spikes as not usable and puts the line between the neighbours in their place; returns how
   * many readings of them stand in {@code [from, to)}.
   */
  static int mark(Samples s, double noise, int from, int to) {
    int longest = s.longestSpike();
    int found = 0;
    for (int i = 1; i + 1 < s.size(); i++) {
      int length = length(s, i, noise, longest);
      for (int k = i; k < i + length; k++) {
        s.x[k] = onLine(s.x, i, length, k);
        s.usable[k] = false;
        found += k >= from && k < to ? 1 : 0;
      }
      i += length;
    }
    return found;
  }

  private static int length(Samples s, int i, double noise, int longest) {
    for (int length = longest; length > 0; length--) {
      if (isSpike(s, i, length, noise)) {
        return length;
      }
    }
    return 0;
  }

  private static boolean isSpike(Samples s, int i, int length, double noise) {
    double least = NOISES * noise;
    return i + length < s.size()
        && Math.abs(s.x[i] - onLine(s.x, i, length, i)) > least
        && standsOff(s, i, length, least);
  }

  /** Whether all of the readings stand off by more than the course beside them bends. */
  private static boolean standsOff(Samples s, int i, int length, double least) {
    double[] x = s.x;
    int next = i + length;
    double left = i >= 2 ? x[i - 1] - x[i - 2] : 0;
    double right = next + 1 < x.length ? x[next + 1] - x[next] : 0;
    double across = (x[next] - x[i - 1]) / (length + 1);
    double bend = Math.max(Math.abs(left - across), Math.abs(right - across));
    boolean all = true;
    for (int k = i; k < next; k++) {
      double off = x[k] - onLine(x, i, length, k);
      all &= s.usable[k] && Math.abs(off) > least + COURSES * bend;
    }
    return all;
  }

  /** Where reading k would stand on the line between the neighbours of the spike from i on. */
  private static double onLine(double[] x, int i, int length, int k) {
    double share = (k - i + 1.0) / (length + 1);
    return x[i - 1] + share * (x[i + length] - x[i - 1]);
  }
}
