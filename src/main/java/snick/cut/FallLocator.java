package snick.cut;

import java.util.Optional;

/** Finds the fall after the peak, how long it took and in how many steps it went. */
final class FallLocator {
  /**
   * A fall is measured between these shares of its height, as usual for pulses (IEC 60469, from
   * memory).
   */
  private static final double TOP = 0.9;

  private static final double BOTTOM = 0.1;

  /** A step is at least this share of the fall. Half or twice as much: no change. */
  private static final double STEP_SHARE = 0.2;

  /** The amplifier's filter spreads a step over four to five periods. Half or twice: no change. */
  private static final double LONGEST_FILTERED_STEP = 5;

  /**
   * A step begins where it falls by this share of the steepest reading, and ends where two in a row
   * change by no more than CALM of it. Set by hand and tried on 20 random rigs of 25 cuts, seeds
   * 20040 to 20059, long rests and short: half or twice changes nothing; twice CALM loses 3 cuts of
   * 992.
   */
  private static final double STEEP = 0.3;

  private static final double CALM = 0.15;

  private final Samples s;
  private final double after;
  private final double longestStep;

  /**
   * A locator over these samples.
   *
   * @param after level fallen to, counts above zero
   * @param severedFallNanos longest fall of a parting, the filter apart, ns
   */
  FallLocator(Samples s, double after, double severedFallNanos) {
    this.s = s;
    this.longestStep = Math.max(LONGEST_FILTERED_STEP, severedFallNanos / s.periodNanos);
    this.after = after;
  }

  /** The fall between the peak at {@code peak} and {@code to}; empty if the reading never fell. */
  Optional<Fall> find(int peak, int to) {
    int bottom = firstBelow(peak, to, after + BOTTOM * (s.x[peak] - after));
    if (bottom < 0) {
      return Optional.empty();
    }
    double height = localTop(peak, bottom) - after;
    int top = lastAbove(peak, bottom, after + TOP * height);
    bottom = firstBelow(top, to, after + BOTTOM * height);
    if (bottom <= top || height <= 0) {
      return Optional.empty();
    }
    double from90 = Math.max(s.crossing(top, after + TOP * height), lastSpoiltFrom(top, bottom));
    double to10 =
        Math.min(s.crossing(bottom - 1, after + BOTTOM * height), firstSpoiltBefore(bottom, top));
    return Optional.of(withSteps(top, bottom, from90, to10, height));
  }

  /** Time of the last of the spoilt samples next after the top: the fall may have begun as late. */
  private double lastSpoiltFrom(int top, int bottom) {
    int i = top;
    while (i + 1 < bottom && !s.usable[i + 1]) {
      i++;
    }
    return s.time[i];
  }

  /**
   * Time of the first of the spoilt samples before the bottom: the fall may have been over then.
   */
  private double firstSpoiltBefore(int bottom, int top) {
    int i = bottom;
    while (i - 1 > top && !s.usable[i - 1]) {
      i--;
    }
    return s.time[i];
  }

  /** The peak; where the force sank slowly before it broke, the peak is still the measure. */
  private double localTop(int peak, int bottom) {
    return s.x[s.largest(peak, bottom)];
  }

  private int firstBelow(int from, int to, double level) {
    for (int i = from + 1; i < to; i++) {
      if (s.usable[i] && s.x[i] <= level) {
        return i;
      }
    }
    return -1;
  }

  private int lastAbove(int from, int to, double level) {
    for (int i = to - 1; i > from; i--) {
      if (s.usable[i] && s.x[i] >= level) {
        return i;
      }
    }
    return from;
  }

  private Fall withSteps(int top, int bottom, double from90, double to10, double height) {
    double steepest = 0;
    for (int i = top; i < bottom; i++) {
      steepest = Math.max(steepest, drop(i));
    }
    int steps = 0;
    int start = top;
    int firstFrom = top;
    int firstTo = bottom;
    boolean inside = false;
    boolean counted = false;
    for (int i = top; i < bottom; i++) {
      if (!inside && drop(i) > STEEP * steepest) {
        inside = true;
        counted = false;
        start = i;
      } else if (inside && calm(i, bottom, steepest)) {
        inside = false;
        firstTo = steps == 1 && counted ? i : firstTo;
      }
      if (inside
          && !counted
          && i + 1 - start <= longestStep
          && s.x[start] - s.x[i + 1] > STEP_SHARE * height) {
        counted = true;
        firstFrom = steps == 0 ? start : firstFrom;
        steps++;
      }
    }
    return new Fall(top, bottom, from90, to10, Math.max(1, steps), firstFrom, firstTo);
  }

  /** Whether the fall pauses for at least two samples. */
  private boolean calm(int i, int bottom, double steepest) {
    return i + 2 < bottom
        && Math.abs(drop(i)) < CALM * steepest
        && Math.abs(drop(i + 1)) < CALM * steepest;
  }

  private double drop(int i) {
    return s.x[i] - s.x[i + 1];
  }
}
