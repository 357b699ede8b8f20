package snick.cut;

/**
 * Dips of the loading before its peak, as a filament makes them that slips on a burr. A dip is
 * either a sinking of the reading itself, or, where the loading rises too fast for that, a reading
 * below the chord between those a sixteenth of a second before and after, which themselves stand
 * above theirs: a mere change of speed has no such rim. What hand tremor does all along the loading
 * (the median distance from the chord) is no dip.
 */
final class Dips {
  /** Half the length of the chord: half a period of tremor of 8 Hz, which thus shows most. */
  private static final double HALF_CHORD_SECONDS = 1.0 / 16;

  private static final int LEAST_HALF_CHORD = 2;

  /** Smallest dip as a share of the largest reading: less has no bearing on the force. */
  private static final double HEIGHT_SHARE = 0.01;

  /**
   * The highest of a hundred swings of narrow-band random tremor reaches about 4.5 medians
   * (Rayleigh distribution); with this factor one such loading in a hundred shows a dip.
   */
  private static final double TREMORS = 5.5;

  /** The chord's rim stands half as high as the dip is deep if the dip is brief, less if not. */
  private static final double RIM_SHARE = 0.25;

  /** Distances from a chord of whole readings are whole halves of a count. */
  private static final double STEPS_PER_COUNT = 2;

  private final Samples s;
  private final int onset;
  private final int peak;
  private final int half;
  private final double least;

  /**
   * Over a loading.
   *
   * @param bandCounts how far a reading at rest may lie off, counts
   */
  Dips(Samples s, int onset, int peak, double bandCounts) {
    this.s = s;
    this.onset = onset;
    this.peak = peak;
    half = (int) Math.max(LEAST_HALF_CHORD, Math.round(HALF_CHORD_SECONDS * 1e9 / s.periodNanos));
    least = Math.max(bandCounts, HEIGHT_SHARE * s.x[peak]);
  }

  /** How many there are. What is deep enough beside tremor is looked for only if any is at all. */
  int count() {
    return count(least) == 0 ? 0 : count(Math.max(least, TREMORS * medianOffChord()));
  }

  /** How many there are of more than {@code needed} counts. */
  private int count(double needed) {
    return Math.max(sinkings(needed), kinks(needed));
  }

  private int sinkings(double needed) {
    int dips = 0;
    double high = 0;
    double low = 0;
    boolean down = false;
    for (int i = onset; i <= peak; i++) {
      if (!s.usable[i]) {
        continue;
      }
      if (!down && s.x[i] < high - needed) {
        down = true;
        low = s.x[i];
      }
      low = down ? Math.min(low, s.x[i]) : low;
      if (down && s.x[i] > low + needed) {
        down = false;
        dips++;
        high = s.x[i];
      }
      high = down ? high : Math.max(high, s.x[i]);
    }
    return dips;
  }

  private int kinks(double needed) {
    int dips = 0;
    int deepest = 0;
    for (int i = onset + 2 * half; i + half <= peak; i++) {
      boolean deep = belowChord(i) > needed && rimmed(i);
      if (deep && (deepest == 0 || i - deepest > half)) {
        dips++;
      }
      deepest = deep ? i : deepest;
    }
    return dips;
  }

  private boolean rimmed(int i) {
    double rim = -RIM_SHARE * belowChord(i);
    boolean before = belowChord(i - half) < rim;
    boolean after = i + 2 * half > peak || belowChord(i + half) < rim;
    return before && after;
  }

  private double belowChord(int i) {
    return 0.5 * (s.x[i - half] + s.x[i + half]) - s.x[i];
  }

  private double medianOffChord() {
    int from = onset + half;
    int n = peak - half - from;
    if (n < 1) {
      return 0;
    }
    int[] off = new int[n];
    for (int i = 0; i < n; i++) {
      off[i] = (int) (STEPS_PER_COUNT * Math.abs(belowChord(from + i)) + 0.5);
    }
    Selection.place(off, 0, n, n / 2);
    return off[n / 2] / STEPS_PER_COUNT;
  }
}
