package snick.force.fit;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.force.mass.AirDensity;
import snick.force.mass.Gravity;
import snick.force.mass.LoadUnit;

/**
 * A calibration curve from a plain table of loads and readings.
 *
 * @param choice fit of reading over load in the table's unit, with the reason for its degree
 * @param unit unit of the loads
 * @param overForce the same curve over force in N; empty for masses without corrections
 * @param byLoads relative standard uncertainty of a load read off the curve by those of the loads
 *     it was made with, all the same way, largest over the loads; not in the errors of the
 *     coefficients. Empty if none was given
 */
public record PointsFit(
    DegreeRule.Choice choice,
    LoadUnit unit,
    Optional<CalibrationCurve> overForce,
    OptionalDouble byLoads) {
  /** Where masses become forces. */
  public record Place(Gravity gravity, AirDensity air) {}

  /**
   * One row of the table.
   *
   * @param load load, in the table's unit
   * @param reading reading, in any unit
   * @param loadUncertainty standard uncertainty of the load, not negative; empty if not given
   */
  public record Point(double load, double reading, OptionalDouble loadUncertainty) {
    public Point {
      if (!Double.isFinite(load) || !Double.isFinite(reading)) {
        throw new IllegalArgumentException(
            "load " + load + ", reading " + reading + ": finite numbers needed");
      }
      loadUncertainty.ifPresent(
          u -> {
            if (!(u >= 0 && Double.isFinite(u))) {
              throw new IllegalArgumentException(
                  "standard uncertainty of load " + u + " is negative or not finite");
            }
          });
    }
  }

  /**
   * Fits, all rows with the same weight: errors of loads are common to the rows of a mass, so that
   * they are no scatter to weigh by (see {@link #byLoads}).
   *
   * @param place gravity and air for masses; empty takes loads as given
   */
  public static PointsFit fit(
      List<Point> points, LoadUnit unit, DegreeRule rule, Options options, Optional<Place> place) {
    double[] loads = points.stream().mapToDouble(Point::load).toArray();
    double[] readings = points.stream().mapToDouble(Point::reading).toArray();
    double[] equal = new double[loads.length];
    Arrays.fill(equal, 1);
    DegreeRule.Choice choice = rule.fit(loads, readings, equal, options.throughOrigin());
    OptionalDouble newtons =
        place
            .map(p -> OptionalDouble.of(unit.newtons(p.gravity(), p.air())))
            .orElse(unit.newtons());
    return new PointsFit(
        choice,
        unit,
        newtons.isPresent()
            ? Optional.of(choice.fit().overForce(newtons.getAsDouble()))
            : Optional.empty(),
        byLoads(points, choice.fit()));
  }

  private static OptionalDouble byLoads(List<Point> points, PolynomialFit fit) {
    if (points.stream().allMatch(point -> point.loadUncertainty().isEmpty())) {
      return OptionalDouble.empty();
    }
    return OptionalDouble.of(
        CommonLoadError.largestEffect(
            fit,
            points.stream().mapToDouble(Point::load).toArray(),
            points.stream().mapToDouble(p -> p.loadUncertainty().orElse(0)).toArray()));
  }

  /**
   * How to fit.
   *
   * @param throughOrigin whether the curve is held at reading 0 for load 0
   */
  public record Options(boolean throughOrigin) {
    /** With a constant. */
    public static final Options USUAL = new Options(false);
  }
}
