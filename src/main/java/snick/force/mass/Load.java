package snick.force.mass;

import java.util.List;
import java.util.stream.Collectors;
import snick.phrase.NotAccepted;
import snick.quantity.Force;

/**
 * Masses that press on the cell together, and the force they exert.
 *
 * @param masses at least one
 */
public record Load(List<ReferenceMass> masses) {
  public Load {
    masses = List.copyOf(masses);
    if (masses.isEmpty()) {
      throw new NotAccepted("refused.load_without_mass");
    }
  }

  /** One mass alone. */
  public static Load of(ReferenceMass mass) {
    return new Load(List.of(mass));
  }

  /** Names of the masses, joined with " + ". */
  public String name() {
    return masses.stream().map(ReferenceMass::name).collect(Collectors.joining(" + "));
  }

  /** Sum of the conventional masses, g. */
  public double nominalGrams() {
    return masses.stream().mapToDouble(m -> m.conventionalMass().grams()).sum();
  }

  /**
   * A force with the standard uncertainties that its sources give it.
   *
   * @param force the force
   * @param byMassesNewtons from the masses, N: their uncertainties added linearly, as weights of
   *     one set or one certificate may all err the same way (correlation coefficient 1: JCGM
   *     100:2008, 5.2.2, note 1; OIML R 111-1 where covariances are not known, from memory)
   * @param byGravityNewtons from local gravity, N
   * @param byBuoyancyNewtons from the density of the air, N
   */
  public record Exerted(
      Force force, double byMassesNewtons, double byGravityNewtons, double byBuoyancyNewtons) {
    /** All of it together, N. */
    public double standardUncertaintyNewtons() {
      return Math.hypot(byMassesNewtons, Math.hypot(byGravityNewtons, byBuoyancyNewtons));
    }
  }

  /**
   * Weight less buoyancy: F = m·g·(1 − ρa/ρ), m the true mass that belongs to the conventional one.
   */
  public Exerted exerted(Gravity gravity, AirDensity air) {
    double g = gravity.metresPerSecondSquared();
    double newtons = 0;
    double byMasses = 0;
    double byBuoyancy = 0;
    for (ReferenceMass mass : masses) {
      double density = mass.densityKilogramsPerCubicMetre();
      double perKilogram = g * (1 - air.kilogramsPerCubicMetre() / density);
      newtons += mass.trueMassKilograms() * perKilogram;
      byMasses += mass.standardUncertainty().kilograms() * perKilogram;
      byBuoyancy += mass.trueMassKilograms() * g / density * air.standardUncertainty();
    }
    double byGravity = newtons / g * gravity.standardUncertainty();
    return new Exerted(Force.ofNewtons(newtons), byMasses, byGravity, byBuoyancy);
  }
}
