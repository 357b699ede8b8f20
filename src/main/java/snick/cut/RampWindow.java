package snick.cut;

import java.util.Arrays;

/**
 * The readings of one loading on an even grid around its end, in units of the noise: early ones,
 * which no filter of the family lets touch the break, and late ones. A reading that is missing or
 * not usable is put in from its neighbours, beside the fall from those before; if it is late it is
 * marked, too.
 */
final class RampWindow {
  /** Place of the first late sample, periods after the reference. */
  static final int LATE_FROM = -3;

  /** How many late samples there are. */
  static final int LATE = 7;

  private static final double SAME_SAMPLE = 0.25;

  /** Over so many readings the loading's slope is taken to carry it on by one or two. */
  private static final int SLOPE_READINGS = 6;

  final double reference;
  final double noise;
  final double[] early;
  final double[] late = new double[LATE];
  final boolean[] lateUsable = new boolean[LATE];
  final double after;

  /**
   * A window.
   *
   * @param reference time of the sample nearest to the break, periods
   * @param early how many early readings
   * @param lastTime readings later than this are of no use, periods
   * @param after level after the fall, counts
   */
  RampWindow(Samples s, double reference, int early, double lastTime, double after, double noise) {
    this.reference = reference;
    this.noise = noise;
    this.after = after / noise;
    this.early = new double[early];
    int i = Math.max(0, s.indexBefore(reference + LATE_FROM - early));
    for (int k = -early; k < LATE; k++) {
      double time = reference + LATE_FROM + k;
      while (i + 2 < s.size() && s.time[i + 1] <= time) {
        i++;
      }
      double reading = s.between(i, time) / noise;
      boolean kept = k < -Spikes.LONGEST || usable(s, i, time);
      if (k < 0) {
        this.early[early + k] = kept ? reading : carriedOn(early + k);
      } else {
        late[k] = reading;
        lateUsable[k] = kept && time <= lastTime;
      }
    }
  }

  private RampWindow(RampWindow w, int kept) {
    reference = w.reference;
    noise = w.noise;
    after = w.after;
    early = Arrays.copyOfRange(w.early, w.early.length - kept, w.early.length);
    System.arraycopy(w.late, 0, late, 0, LATE);
    System.arraycopy(w.lateUsable, 0, lateUsable, 0, LATE);
  }

  /** The same with the newest {@code kept} early readings only. */
  RampWindow withEarly(int kept) {
    return new RampWindow(this, kept);
  }

  /** The same without {@code length} readings from {@code from} on, counted from the first late. */
  RampWindow without(int from, int length) {
    RampWindow w = new RampWindow(this, early.length);
    for (int k = from; k < from + length; k++) {
      if (k >= 0) {
        w.lateUsable[k] = false;
      } else {
        w.early[early.length + k] = w.carriedOn(early.length + k);
      }
    }
    return w;
  }

  /** The readings before carried on to this one: those behind it may belong to the fall. */
  private double carriedOn(int k) {
    int over = Math.min(SLOPE_READINGS, k - 1);
    return over < 1
        ? early[Math.max(0, k - 1)]
        : early[k - 1] + (early[k - 1] - early[k - 1 - over]) / over;
  }

  private static boolean usable(Samples s, int i, double time) {
    int nearest = i + 1 < s.size() && s.time[i + 1] - time < time - s.time[i] ? i + 1 : i;
    return s.usable[nearest] && Math.abs(s.time[nearest] - time) < SAME_SAMPLE;
  }
}
