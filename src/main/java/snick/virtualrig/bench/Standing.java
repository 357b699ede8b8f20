package snick.virtualrig.bench;

import java.util.OptionalDouble;

/** A load that does not change, for a time. */
final class Standing implements LoadCourse {
  /** Far below a fine step, far above the rounding of a sum of steps. */
  private static final double ROUNDING_SECONDS = 1e-7;

  private final double gramForce;
  private double leftSeconds;

  Standing(double gramForce, double seconds) {
    this.gramForce = gramForce;
    this.leftSeconds = seconds;
  }

  @Override
  public double advance(double stepSeconds, Witness witness) {
    leftSeconds -= stepSeconds;
    return gramForce;
  }

  @Override
  public boolean over() {
    return leftSeconds <= ROUNDING_SECONDS;
  }

  @Override
  public OptionalDouble steadyGramForce(double seconds) {
    return leftSeconds >= seconds - ROUNDING_SECONDS
        ? OptionalDouble.of(gramForce)
        : OptionalDouble.empty();
  }
}
