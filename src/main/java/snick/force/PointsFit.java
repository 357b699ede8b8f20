package snick.force;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * A calibration curve from a plain table of loads and readings.
 *
 * @param choice fit of reading over load in the table's unit, with the reason for its degree
 * @param unit unit of the loads
 * @param overForce the same curve over force in N; empty for masses without corrections
 */
public record PointsFit(
    DegreeRule.Choice choice, LoadUnit unit, Optional<CalibrationCurve> overForce) {
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

    /** A row without uncertainty. */
    public static Point of(double load, double reading) {
      return new Point(load, reading, OptionalDouble.empty());
    }
  }

  /**
   * Fits. Where rows give uncertainties of loads, weights follow the effective variance (reading
   * scatter s, slope b): w = s²/(s² + b²·u²), with s and b from a first fit with equal weights.
   *
   * @param place gravity and air for masses; empty takes loads as given
   */
  public static PointsFit fit(
      List<Point> points, LoadUnit unit, DegreeRule rule, Options options, Optional<Place> place) {
    double[] loads = points.stream().mapToDouble(Point::load).toArray();
    double[] readings = points.stream().mapToDouble(Point::reading).toArray();
    double[] equal = new double[loads.length];
    Arrays.fill(equal, 1);
    DegreeRule.Choice first = rule.fit(loads, readings, equal, options.throughOrigin());
    DegreeRule.Choice choice =
        points.stream().anyMatch(p -> p.loadUncertainty().orElse(0) > 0)
            ? rule.fit(loads, readings, weights(points, first.fit()), options.throughOrigin())
            : first;
    OptionalDouble newtons =
        place
            .map(p -> OptionalDouble.of(unit.newtons(p.gravity(), p.air())))
            .orElse(unit.newtons());
    return new PointsFit(
        choice,
        unit,
        newtons.isPresent()
            ? Optional.of(choice.fit().overForce(newtons.getAsDouble()))
            : Optional.empty());
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

  private static double[] weights(List<Point> points, PolynomialFit first) {
    double scatter = LackOfFit.of(first).map(LackOfFit::pureErrorSd).orElse(first.residualSd());
    double[] weights = new double[points.size()];
    for (int i = 0; i < weights.length; i++) {
      Point point = points.get(i);
      double byLoad = first.slope(point.load()) * point.loadUncertainty().orElse(0);
      double ratio = byLoad > 0 ? byLoad / scatter : 0;
      weights[i] = 1 / (1 + ratio * ratio);
      if (!(weights[i] > 0)) {
        throw new IllegalArgumentException(
            "point "
                + (i + 1)
                + ": uncertainty of load "
                + point.loadUncertainty().orElse(0)
                + " is too large beside readings that scatter by "
                + scatter
                + "; leave it out or give smaller uncertainties");
      }
    }
    return weights;
  }
}
