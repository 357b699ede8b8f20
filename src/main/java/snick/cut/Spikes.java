package snick.cut;

/**
 * Single-sample spikes: a reading far outside its neighbours while the neighbours agree with each
 * other as a smooth course does. A parting seen through a filter of several periods has no such
 * sample.
 */
final class Spikes {
  private static final double NOISES = 6;
  private static final double COURSES = 3;

  private Spikes() {}

  /**
   * Marks spikes as not usable and puts the mean of the neighbours in their place; returns how many
   * stand in {@code [from, to)}.
   */
  static int mark(Samples s, double noise, int from, int to) {
    int found = 0;
    for (int i = 1; i + 1 < s.size(); i++) {
      if (s.usable[i] && isSpike(s.x, i, noise)) {
        s.usable[i] = false;
        s.x[i] = 0.5 * (s.x[i - 1] + s.x[i + 1]);
        found += i >= from && i < to ? 1 : 0;
        i++;
      }
    }
    return found;
  }

  private static boolean isSpike(double[] x, int i, double noise) {
    double off = x[i] - 0.5 * (x[i - 1] + x[i + 1]);
    double left = i >= 2 ? x[i - 1] - x[i - 2] : 0;
    double right = i + 2 < x.length ? x[i + 2] - x[i + 1] : 0;
    double across = 0.5 * (x[i + 1] - x[i - 1]);
    double bend = Math.max(Math.abs(left - across), Math.abs(right - across));
    return Math.abs(off) > NOISES * noise + COURSES * bend;
  }
}
