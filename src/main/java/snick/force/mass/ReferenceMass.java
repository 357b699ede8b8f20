package snick.force.mass;

import java.util.Locale;
import snick.phrase.NotAccepted;
import snick.quantity.Mass;

/**
 * One body of known mass. The mass is the conventional one: that of a weight of 8000 kg/m³ which
 * balances it in air of 1.2 kg/m³ (OIML D 28).
 *
 * @param name what the person calls it, at most 64 characters
 * @param conventionalMass conventional mass, above 0 kg
 * @param standardUncertainty its standard uncertainty
 * @param distribution assumed distribution
 * @param densityKilogramsPerCubicMetre density of the body, 500 to 25000 kg/m³
 * @param basis where the figure comes from, for people
 */
public record ReferenceMass(
    String name,
    Mass conventionalMass,
    Mass standardUncertainty,
    Distribution distribution,
    double densityKilogramsPerCubicMetre,
    String basis) {
  /** Density of the reference weights that conventional mass assumes, kg/m³ (OIML D 28). */
  public static final double CONVENTIONAL_DENSITY = 8000;

  private static final int LONGEST_NAME = 64;
  private static final double RECTANGULAR = Math.sqrt(3);

  public ReferenceMass {
    if (name.length() > LONGEST_NAME || name.chars().anyMatch(Character::isISOControl)) {
      throw new NotAccepted("refused.name_of_mass", "n", name.length());
    }
    if (!(conventionalMass.kilograms() > 0)) {
      throw new NotAccepted("refused.mass_not_above_zero", "name", name);
    }
    Range.require("density of mass", densityKilogramsPerCubicMetre, 500, 25_000, "kg/m³");
  }

  /** A weight known by its class only: limit of the class, rectangular (JCGM 100:2008, 4.3.7). */
  public static ReferenceMass ofClass(MassClass massClass, Mass nominal) {
    Mass limit = massClass.limit(nominal);
    return new ReferenceMass(
        text(nominal) + " " + massClass,
        nominal,
        new Mass(limit.kilograms() / RECTANGULAR),
        Distribution.RECTANGULAR,
        CONVENTIONAL_DENSITY,
        String.format(Locale.ROOT, "class %s, limit ±%.4g mg", massClass, limit.kilograms() * 1e6));
  }

  /** The same under another name. */
  public ReferenceMass called(String other) {
    return new ReferenceMass(
        other,
        conventionalMass,
        standardUncertainty,
        distribution,
        densityKilogramsPerCubicMetre,
        basis);
  }

  /**
   * A weight with a certificate.
   *
   * @param expanded expanded uncertainty U
   * @param coverageFactor k, 1 to 5
   */
  public static ReferenceMass certified(
      String name, Mass conventional, Mass expanded, double coverageFactor) {
    Range.require("coverage factor", coverageFactor, 1, 5, "(k)");
    return new ReferenceMass(
        name,
        conventional,
        new Mass(expanded.kilograms() / coverageFactor),
        Distribution.NORMAL,
        CONVENTIONAL_DENSITY,
        String.format(
            Locale.ROOT,
            "certificate, U = %.4g mg, k = %.4g",
            expanded.kilograms() * 1e6,
            coverageFactor));
  }

  /** A body whose mass and standard uncertainty the person states, for example weighed. */
  public static ReferenceMass stated(
      String name, Mass conventional, Mass standardUncertainty, double densityKgPerCubicMetre) {
    return new ReferenceMass(
        name,
        conventional,
        standardUncertainty,
        Distribution.NORMAL,
        densityKgPerCubicMetre,
        "stated");
  }

  /**
   * A body made to a nominal mass with a tolerance, such as a coin: rectangular; wear is not in it.
   */
  public static ReferenceMass toleranced(
      String name, Mass nominal, Mass tolerance, double densityKgPerCubicMetre) {
    return new ReferenceMass(
        name,
        nominal,
        new Mass(tolerance.kilograms() / RECTANGULAR),
        Distribution.RECTANGULAR,
        densityKgPerCubicMetre,
        String.format(Locale.ROOT, "tolerance ±%.4g mg", tolerance.kilograms() * 1e6));
  }

  /** True mass, kg: the conventional mass with the conventional buoyancy taken back. */
  public double trueMassKilograms() {
    double standard = AirDensity.STANDARD_KILOGRAMS_PER_CUBIC_METRE;
    return conventionalMass.kilograms()
        * (1 - standard / CONVENTIONAL_DENSITY)
        / (1 - standard / densityKilogramsPerCubicMetre);
  }

  private static String text(Mass mass) {
    return String.format(Locale.ROOT, "%.6g g", mass.grams()).replaceAll("\\.?0+ g$", " g");
  }
}
