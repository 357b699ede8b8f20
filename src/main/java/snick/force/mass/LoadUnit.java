package snick.force.mass;

import java.util.Arrays;
import java.util.OptionalDouble;
import snick.quantity.Force;

/** Unit in which a table of calibration points gives its loads. */
public enum LoadUnit {
  GRAM("g", 1e-3),
  KILOGRAM("kg", 1),
  NEWTON("N", 1),
  GRAM_FORCE("gf", Force.NEWTONS_PER_GRAM_FORCE);

  private final String symbol;
  private final double inBaseUnit;

  LoadUnit(String symbol, double inBaseUnit) {
    this.symbol = symbol;
    this.inBaseUnit = inBaseUnit;
  }

  /** Symbol, for example {@code gf}. */
  public String symbol() {
    return symbol;
  }

  /** Whether it is a unit of force. */
  public boolean isForce() {
    return this == NEWTON || this == GRAM_FORCE;
  }

  /** Newtons in one unit; empty for a mass. */
  public OptionalDouble newtons() {
    return isForce() ? OptionalDouble.of(inBaseUnit) : OptionalDouble.empty();
  }

  /** Newtons that one unit of conventional mass exerts there; for a force, the unit's own. */
  public double newtons(Gravity gravity, AirDensity air) {
    double buoyancy = 1 - air.kilogramsPerCubicMetre() / ReferenceMass.CONVENTIONAL_DENSITY;
    return isForce() ? inBaseUnit : inBaseUnit * gravity.metresPerSecondSquared() * buoyancy;
  }

  /** The unit with that symbol. */
  public static LoadUnit named(String symbol) {
    return Arrays.stream(values())
        .filter(u -> u.symbol.equals(symbol.strip()))
        .findFirst()
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "load unit '" + symbol + "' is unknown; known: g, kg, N, gf"));
  }
}
