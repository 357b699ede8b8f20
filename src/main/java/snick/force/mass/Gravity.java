package snick.force.mass;

import java.util.Locale;

/**
 * Local gravity with its standard uncertainty.
 *
 * @param metresPerSecondSquared m/s², 9.7 to 9.9
 * @param standardUncertainty m/s², 0 to 0.05
 * @param distribution assumed distribution
 * @param basis where the figure comes from, for people
 */
public record Gravity(
    double metresPerSecondSquared,
    double standardUncertainty,
    Distribution distribution,
    String basis) {
  /**
   * Greatest relative difference between the normal-gravity formula and measured values, taken as
   * half-width of a rectangular distribution: six measured stations lie within 3.8e-5, and the
   * source of the linear height term says "generally within ±5 parts in 10⁵".
   */
  public static final double MODEL_RELATIVE_HALF_WIDTH = 5e-5;

  /** Between 9.780 m/s² at the equator and 9.832 m/s² at the poles (GRS 80, from memory). */
  private static final double MIDDLE_OF_THE_EARTH_RANGE = 9.806;

  /** Half of that, and 0.001 m/s² for 300 m of height, m/s². */
  private static final double HALF_OF_THE_EARTH_RANGE = 0.027;

  private static final double EQUATOR = 9.7803253359;
  private static final double SOMIGLIANA_K = 0.00193185265241;
  private static final double ECCENTRICITY_SQUARED = 0.00669437999013;
  private static final double SEMI_MAJOR_METRES = 6_378_137;
  private static final double FLATTENING = 1 / 298.257223563;
  private static final double CENTRIFUGAL_RATIO = 0.00344978650684;

  public Gravity {
    Range.require("gravity", metresPerSecondSquared, 9.7, 9.9, "m/s²");
    Range.require("standard uncertainty of gravity", standardUncertainty, 0, 0.05, "m/s²");
  }

  /** A measured value with its standard uncertainty, both in m/s². */
  public static Gravity measured(double metresPerSecondSquared, double standardUncertainty) {
    return new Gravity(
        metresPerSecondSquared, standardUncertainty, Distribution.NORMAL, "measured");
  }

  /**
   * Normal gravity of WGS 84 (Somigliana's formula) with the free-air correction to second order.
   *
   * @param latitudeDegrees −90 to 90, south negative
   * @param heightMetres above sea level, −500 to 9000 m
   */
  public static Gravity at(double latitudeDegrees, double heightMetres) {
    Range.require("latitude", latitudeDegrees, -90, 90, "°");
    Range.require("height", heightMetres, -500, 9000, "m");
    double sine = Math.sin(Math.toRadians(latitudeDegrees));
    double sineSquared = sine * sine;
    double g = somigliana(sineSquared) * freeAir(sineSquared, heightMetres);
    return new Gravity(
        g,
        g * MODEL_RELATIVE_HALF_WIDTH / Math.sqrt(3),
        Distribution.RECTANGULAR,
        String.format(
            Locale.ROOT,
            "normal gravity (WGS 84) at latitude %.4f degrees, %.0f m",
            latitudeDegrees,
            heightMetres));
  }

  /** Where the place is left open: anywhere on Earth at sea level. */
  public static Gravity onEarth() {
    return new Gravity(
        MIDDLE_OF_THE_EARTH_RANGE,
        HALF_OF_THE_EARTH_RANGE / Math.sqrt(3),
        Distribution.RECTANGULAR,
        "place not stated: anywhere on Earth at sea level, 9.779 to 9.833 m/s²");
  }

  private static double somigliana(double sineSquared) {
    return EQUATOR
        * (1 + SOMIGLIANA_K * sineSquared)
        / Math.sqrt(1 - ECCENTRICITY_SQUARED * sineSquared);
  }

  private static double freeAir(double sineSquared, double heightMetres) {
    double ratio = heightMetres / SEMI_MAJOR_METRES;
    double first = 1 + FLATTENING + CENTRIFUGAL_RATIO - 2 * FLATTENING * sineSquared;
    return 1 - 2 * ratio * first + 3 * ratio * ratio;
  }
}
