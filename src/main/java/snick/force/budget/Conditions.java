package snick.force.budget;

import java.time.Duration;
import java.util.Optional;
import snick.force.mass.AirDensity;
import snick.force.mass.Gravity;
import snick.force.mass.Range;

/**
 * Where a calibration was made and how its rig will be used until the next one.
 *
 * @param gravity local gravity
 * @param air density of the air
 * @param stability what the person knows of temperature and drift
 * @param geometry what the person knows of the way from the edge to the cell
 */
public record Conditions(
    Gravity gravity, AirDensity air, Stability stability, EdgeGeometry geometry) {
  /** The same with this geometry. */
  public Conditions at(EdgeGeometry edge) {
    return new Conditions(gravity, air, stability, edge);
  }

  /**
   * Temperature and drift; 0 where the person leaves a source out on purpose.
   *
   * @param relativePerKelvin change of sensitivity with temperature, 0 to 0.01 per K
   * @param halfWidthKelvin how far the temperature in use may lie from that at calibration, 0 to 50
   *     K
   * @param relativePerYear change of sensitivity expected in a year, 0 to 1
   * @param validFor period of validity
   */
  public record Stability(
      double relativePerKelvin,
      double halfWidthKelvin,
      double relativePerYear,
      Optional<Duration> validFor) {
    private static final double DAYS_IN_A_YEAR = 365.25;

    /** What is taken where the person says nothing: common practice, no source. */
    public static final Stability USUAL =
        new Stability(1e-4, 3, 1e-3, Optional.of(Duration.ofDays(180)));

    public Stability {
      Range.require("temperature coefficient", relativePerKelvin, 0, 0.01, "per K");
      Range.require("half-width of temperature", halfWidthKelvin, 0, 50, "K");
      Range.require("drift", relativePerYear, 0, 1, "per year");
    }

    /** Relative drift until the end of validity; a whole year where no period is set. */
    double relativeDrift() {
      double years = validFor.map(d -> d.toHours() / 24.0 / DAYS_IN_A_YEAR).orElse(1.0);
      return relativePerYear * years;
    }
  }
}
