package snick.cut;

import java.util.Optional;

/** Finds the fall after the peak, how long it took and in how many steps it went. */
final class FallLocator {
  private static final double STEP_SHARE = 0.12;

  private final Samples s;
  private final double after;

  /**
   * A locator over these samples.
   *
   * @param after level fallen to, counts above zero
   */
  FallLocator(Samples s, double after) {
    this.s = s;
    this.after = after;
  }

  /** The fall between the peak at {@code peak} and {@code to}; empty if the reading never fell. */
  Optional<Fall> find(int peak, int to) {
    int bottom = firstBelow(peak, to, after + 0.1 * (s.x[peak] - after));
    if (bottom < 0) {
      return Optional.empty();
    }
    double height = localTop(peak, bottom) - after;
    int top = lastAbove(peak, bottom, after + 0.9 * height);
    bottom = firstBelow(top, to, after + 0.1 * height);
    if (bottom <= top || height <= 0) {
      return Optional.empty();
    }
    double from90 = s.crossing(top, after + 0.9 * height);
    double to10 = s.crossing(bottom - 1, after + 0.1 * height);
    return Optional.of(new Fall(top, bottom, from90, to10, steps(top, bottom, height)));
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

  private int steps(int top, int bottom, double height) {
    double steepest = 0;
    for (int i = top; i < bottom; i++) {
      steepest = Math.max(steepest, drop(i));
    }
    int steps = 0;
    int calm = 2;
    double fallen = 0;
    boolean counted = false;
    for (int i = top; i < bottom; i++) {
      if (drop(i) > 0.3 * steepest) {
        if (calm >= 2) {
          fallen = 0;
          counted = false;
        }
        fallen += drop(i);
        calm = 0;
      } else {
        calm += drop(i) < 0.2 * steepest ? 1 : 0;
      }
      if (!counted && fallen > STEP_SHARE * height) {
        counted = true;
        steps++;
      }
    }
    return Math.max(1, steps);
  }

  private double drop(int i) {
    return s.x[i] - s.x[i + 1];
  }
}
