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

  private static final double HALF = 1.0 / 2;

  /** How far apart the readings beside a pair may be, of what it stands off: a fall overshoots. */
  private static final double APART = 0.5;

  /**
   * So many readings to one side tell whether it is one swing of several: two of any aliased ring.
   */
  private static final int TOLD_BY = 8;

  /**
   * A ring's swing is no more than so many times the greatest of those beside it, as it would be at
   * a damping ratio of 0.2 with one swing in three readings. Tried on seeds 1 to 80 and 20000 to
   * 20079, after rests long and short, 7989 cuts without a spike: 3 flags with 8 times; with 10
   * none, but spikes within a fall are missed.
   */
  private static final double SWINGS = 8;

  /**
   * Below this share of the largest reading before, it has fallen: a ring may swing back so high.
   */
  private static final double FALLEN = 0.75;

  private Spikes() {}

  /** Marks spikes as not usable and puts the line between the neighbours in their place. */
  static void mark(Samples s, double noise) {
    double least = NOISES * noise;
    int longest = s.longestSpike();
    int i = 1;
    while ((i = next(s.x, i, longest, least)) < s.size()) {
      int length = length(s, i, longest, least);
      leaveOut(s, i, length);
      i += length + 1;
    }
  }

  /** Index of the next reading that lies off the line between its neighbours; else how many are. */
  private static int next(double[] x, int from, int longest, double least) {
    double share = 1.0 / (longest + 1);
    for (int i = from; i + longest < x.length; i++) {
      if (off(x, i, 1, HALF) > least || off(x, i, longest, share) > least) {
        return i;
      }
    }
    int last = Math.max(from, x.length - longest);
    return last + 1 < x.length && off(x, last, 1, HALF) > least ? last : x.length;
  }

  private static int length(Samples s, int i, int longest, double least) {
    for (int length = longest; length > 0; length--) {
      if (i + length < s.size() && spike(s, i, length, least)) {
        return length;
      }
    }
    return 0;
  }

  /**
   * Whether other readings stand off nearly as far: those before, or those after if it fell just
   * now, for the fall itself is no swing.
   */
  private static boolean swings(double[] x, int i, int length) {
    double largest = 0;
    for (int k = Math.max(0, i - TOLD_BY); k < i; k++) {
      largest = Math.max(largest, x[k]);
    }
    boolean fell = x[i + length] < FALLEN * largest;
    int from = fell ? i + length + 1 : Math.max(1, i - 1 - TOLD_BY);
    int to = Math.min(fell ? from + TOLD_BY : i - 1, x.length - 1);
    double most = 0;
    for (int k = from; k < to; k++) {
      most = Math.max(most, off(x, k, 1, HALF));
    }
    return off(x, i, length, 1.0 / (length + 1)) < SWINGS * most;
  }

  private static boolean spike(Samples s, int i, int length, double least) {
    return standOff(s, i, length, least) && !overshoots(s.x, i, length) && !swings(s.x, i, length);
  }

  private static boolean overshoots(double[] x, int i, int length) {
    double off = off(x, i, length, 1.0 / (length + 1));
    return length > 1 && Math.abs(x[i + length] - x[i - 1]) > APART * off;
  }

  /** How far reading i lies from the line between the neighbours of a spike from it on. */
  private static double off(double[] x, int i, int length, double share) {
    return Math.abs(x[i] - (x[i - 1] + share * (x[i + length] - x[i - 1])));
  }

  private static void leaveOut(Samples s, int i, int length) {
    for (int k = i; k < i + length; k++) {
      s.x[k] = onLine(s.x, i, length, k);
      s.usable[k] = false;
    }
  }

  /** Whether all of the readings stand off by more than the course beside them bends. */
  private static boolean standOff(Samples s, int i, int length, double least) {
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
