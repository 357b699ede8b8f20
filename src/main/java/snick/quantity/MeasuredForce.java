package snick.quantity;

/**
 * A force together with its standard uncertainty (JCGM 100:2008, 2.3.1): the two travel together.
 *
 * @param value best estimate
 * @param standardUncertainty one standard deviation of the estimate, not negative
 */
public record MeasuredForce(Force value, Force standardUncertainty) {
  public MeasuredForce {
    if (standardUncertainty.newtons() < 0) {
      throw new IllegalArgumentException(
          "standard uncertainty " + standardUncertainty.newtons() + " N is below 0 N");
    }
  }

  /** Value and standard uncertainty in N. */
  public static MeasuredForce ofNewtons(double newtons, double standardUncertaintyNewtons) {
    return new MeasuredForce(Force.ofNewtons(newtons), Force.ofNewtons(standardUncertaintyNewtons));
  }
}
