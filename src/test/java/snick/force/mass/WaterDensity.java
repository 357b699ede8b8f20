package snick.force.mass;

/**
 * Density of pure, air-free water at 1013.25 hPa, 0 °C to 40 °C: formula of Tanaka et al.,
 * Metrologia 38 (2001) 301–309.
 */
public final class WaterDensity {
  private static final double A1 = -3.983035;
  private static final double A2 = 301.797;
  private static final double A3 = 522528.9;
  private static final double A4 = 69.34881;
  private static final double A5 = 999.974950;

  private WaterDensity() {}

  /** Density at {@code celsius} °C, kg/m³. */
  public static double kilogramsPerCubicMetre(double celsius) {
    if (!(celsius >= 0 && celsius <= 40)) {
      throw new IllegalArgumentException("water of " + celsius + " °C: 0 to 40 °C are described");
    }
    return formula(celsius);
  }

  private static double formula(double celsius) {
    double square = (celsius + A1) * (celsius + A1);
    return A5 * (1 - square * (celsius + A2) / (A3 * (celsius + A4)));
  }
}
