package snick.quantity;

/**
 * A force, signed, finite. Held in newtons; shown also as gram-force.
 *
 * <p>One gram-force is the weight of one gram at standard gravity, 9.806 65 m/s² exactly (CGPM
 * 1901, ISO 80000-4), so 1 gf = 0.009 806 65 N exactly.
 *
 * @param newtons N, from −10⁶ to 10⁶
 */
public record Force(double newtons) implements Comparable<Force> {
  /** Newtons in one gram-force, exact. */
  public static final double NEWTONS_PER_GRAM_FORCE = 0.00980665;

  private static final double LIMIT_NEWTONS = 1e6;

  /** No load. */
  public static final Force ZERO = new Force(0);

  public Force {
    if (!(newtons >= -LIMIT_NEWTONS && newtons <= LIMIT_NEWTONS)) {
      throw new IllegalArgumentException(
          "force " + newtons + " N is outside -1000000 N to 1000000 N");
    }
  }

  /** {@code newtons} in N. */
  public static Force ofNewtons(double newtons) {
    return new Force(newtons);
  }

  /** {@code gramForce} in gf. */
  public static Force ofGramForce(double gramForce) {
    return new Force(gramForce * NEWTONS_PER_GRAM_FORCE);
  }

  /** This force in gf. */
  public double gramForce() {
    return newtons / NEWTONS_PER_GRAM_FORCE;
  }

  @Override
  public int compareTo(Force other) {
    return Double.compare(newtons, other.newtons);
  }
}
