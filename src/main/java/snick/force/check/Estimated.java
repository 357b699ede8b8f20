package snick.force.check;

/**
 * A value with its standard uncertainty, both in the unit that the name of the field gives.
 *
 * @param value value
 * @param standardUncertainty standard uncertainty, not negative
 */
public record Estimated(double value, double standardUncertainty) {
  public Estimated {
    if (!Double.isFinite(value) || !(standardUncertainty >= 0)) {
      throw new IllegalArgumentException(
          "value " + value + " with standard uncertainty " + standardUncertainty);
    }
  }

  /** Expanded uncertainty, k = 2. */
  public double expanded() {
    return 2 * standardUncertainty;
  }
}
