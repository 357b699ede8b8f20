package snick.force.fit;

import snick.quantity.Force;

/**
 * Range of force over which a calibration was made, both ends included.
 *
 * @param from lowest force
 * @param to highest force, above {@code from}
 */
public record ForceRange(Force from, Force to) {
  public ForceRange {
    if (!(to.newtons() > from.newtons())) {
      throw new IllegalArgumentException(
          "range from " + from.newtons() + " N to " + to.newtons() + " N is empty");
    }
  }

  /** From no load to {@code newtons} N. */
  public static ForceRange upToNewtons(double newtons) {
    return new ForceRange(Force.ZERO, Force.ofNewtons(newtons));
  }

  /** Whether {@code newtons} N lies in this range. */
  public boolean holds(double newtons) {
    return newtons >= from.newtons() && newtons <= to.newtons();
  }
}
