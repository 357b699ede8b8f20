package snick.quantity;

/**
 * A mass, not negative, finite.
 *
 * @param kilograms kg, from 0 to 10⁵
 */
public record Mass(double kilograms) {
  private static final double LIMIT_KILOGRAMS = 1e5;

  public Mass {
    if (!(kilograms >= 0 && kilograms <= LIMIT_KILOGRAMS)) {
      throw new IllegalArgumentException("mass " + kilograms + " kg is outside 0 kg to 100000 kg");
    }
  }

  /** {@code grams} in g. */
  public static Mass ofGrams(double grams) {
    return new Mass(grams / 1000);
  }

  /** This mass in g. */
  public double grams() {
    return kilograms * 1000;
  }
}
