package snick.cli.calibration;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import snick.force.fit.CalibrationCurve;
import snick.force.fit.LackOfFit;
import snick.force.fit.PointsFit;
import snick.force.fit.PolynomialFit;
import snick.json.Json;

/** A fit of points as a JSON object, every digit kept. */
final class FitJson {
  private FitJson() {}

  /** The fit; {@code place} is where its masses became forces. */
  static Map<String, Object> of(PointsFit fit, Optional<PointsFit.Place> place) {
    PolynomialFit curve = fit.choice().fit();
    Map<String, Object> object = new LinkedHashMap<>();
    object.put("load_unit", fit.unit().symbol());
    object.put("points", curve.loads().length);
    object.put("degree", curve.form().degree());
    object.put("degree_reason", fit.choice().reason());
    object.put("through_origin", curve.form().throughOrigin());
    object.put("coefficients", list(curve.coefficients()));
    object.put("standard_errors", list(curve.standardErrors()));
    object.put("covariance", rows(curve.covariance()));
    object.put("residual_sd", curve.residualSd());
    object.put("residual_sum_of_squares", curve.residualSumOfSquares());
    if (Double.isFinite(curve.rSquared())) {
      object.put("r_squared", curve.rSquared());
    }
    object.put("degrees_of_freedom", curve.degreesOfFreedom());
    fit.choice().lackOfFit().ifPresent(lack -> object.put("lack_of_fit", lackOfFit(lack)));
    fit.byLoads().ifPresent(u -> object.put("relative_u_by_loads", u));
    object.put("residuals", list(curve.residuals()));
    fit.overForce().ifPresent(force -> object.put("force", force(force, place)));
    return object;
  }

  private static Map<String, Object> lackOfFit(LackOfFit lack) {
    return Json.object(
        "f", lack.f(),
        "lack_degrees_of_freedom", lack.lackDegreesOfFreedom(),
        "pure_degrees_of_freedom", lack.pureDegreesOfFreedom(),
        "p_value", lack.pValue(),
        "pure_error_sd", lack.pureErrorSd());
  }

  private static Map<String, Object> force(
      CalibrationCurve curve, Optional<PointsFit.Place> place) {
    Map<String, Object> object = new LinkedHashMap<>();
    object.put("unit", "N");
    object.put("coefficients", list(curve.coefficients()));
    object.put("standard_errors", list(standardErrors(curve)));
    object.put("covariance", rows(curve.covariance()));
    place.ifPresent(
        p -> {
          object.put("gravity_m_s2", p.gravity().metresPerSecondSquared());
          object.put("u_gravity_m_s2", p.gravity().standardUncertainty());
          object.put("gravity_basis", p.gravity().basis());
          object.put("air_kg_m3", p.air().kilogramsPerCubicMetre());
          object.put("u_air_kg_m3", p.air().standardUncertainty());
        });
    return object;
  }

  /** Square roots of the variances. */
  static double[] standardErrors(CalibrationCurve curve) {
    double[][] covariance = curve.covariance();
    double[] errors = new double[covariance.length];
    Arrays.setAll(errors, i -> Math.sqrt(covariance[i][i]));
    return errors;
  }

  private static List<Double> list(double[] values) {
    return Arrays.stream(values).boxed().toList();
  }

  private static List<List<Double>> rows(double[][] matrix) {
    return Arrays.stream(matrix).map(FitJson::list).toList();
  }

  /** {@code value} with nine significant digits, for people. */
  static String digits(double value) {
    return String.format(Locale.ROOT, "%.9g", value);
  }
}
