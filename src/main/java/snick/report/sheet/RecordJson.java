package snick.report.sheet;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import snick.force.budget.BudgetTerm;
import snick.force.budget.Calibration;
import snick.force.budget.CombinedUncertainty;
import snick.force.budget.Evaluation;
import snick.force.budget.Figure;
import snick.force.fit.CalibrationCurve;
import snick.force.reading.Deflection;
import snick.json.Json;
import snick.phrase.Words;
import snick.store.record.Verification;

/** A calibration record as JSON; infinite degrees of freedom are left out. */
final class RecordJson {
  /** Read by programs: the same in every language. */
  private static final Words ENGLISH = Words.english();

  private RecordJson() {}

  static Map<String, Object> of(CalibrationRecord record) {
    Calibration calibration = record.calibration();
    Map<String, Object> object =
        Json.object(
            "what_it_is", ENGLISH.say(CalibrationRecord.WHAT_IT_IS),
            "id", calibration.id(),
            "number", record.stored().number(),
            "made", calibration.made().toString(),
            "stored_at", record.stored().createdAt().toString(),
            "valid_until", calibration.validFor().map(d -> calibration.made().plus(d).toString()),
            "rig", calibration.boundTo().map(BenchJson.SETTING::write),
            "basis", calibration.basis(),
            "from_n", calibration.range().from().newtons(),
            "to_n", calibration.range().to().newtons(),
            "curve", curve(calibration.curve()),
            "terms", calibration.terms().stream().map(RecordJson::term).toList(),
            "budget", record.budget().stream().map(RecordJson::uncertainty).toList());
    record.evaluation().ifPresent(e -> evaluation(object, e));
    record.sheet().ifPresent(sheet -> object.put("sheet", sheet.json()));
    object.put(
        "verifications", record.verifications().stream().map(RecordJson::verification).toList());
    object.put("remarks", record.remarks().stream().map(ENGLISH::say).toList());
    return object;
  }

  private static Map<String, Object> curve(CalibrationCurve curve) {
    return Json.object(
        "unit", "counts over N",
        "coefficients", list(curve.coefficients()),
        "covariance", Arrays.stream(curve.covariance()).map(RecordJson::list).toList(),
        "degrees_of_freedom", Json.finite(curve.degreesOfFreedom()));
  }

  private static List<Double> list(double[] values) {
    return Arrays.stream(values).boxed().toList();
  }

  private static Map<String, Object> term(BudgetTerm term) {
    return Json.object(
        "source", term.source().word(),
        "distribution", term.distribution().word(),
        "absolute_n", term.absolute().newtons(),
        "relative", term.relative(),
        "sensitivity", 1,
        "degrees_of_freedom", Json.finite(term.degreesOfFreedom()),
        "basis", term.basis());
  }

  private static Map<String, Object> uncertainty(CombinedUncertainty at) {
    Map<String, Object> object = Json.object("force_n", at.newtons());
    object.putAll(BudgetJson.of(at));
    return object;
  }

  private static void evaluation(Map<String, Object> object, Evaluation evaluation) {
    object.put("degree_reason", evaluation.choice().reason());
    object.put("points", evaluation.deflections().stream().map(d -> point(d, evaluation)).toList());
    object.put("figures_of_merit", evaluation.figures().stream().map(RecordJson::figure).toList());
  }

  private static Map<String, Object> point(Deflection point, Evaluation evaluation) {
    return Json.object(
        "run", point.run(),
        "direction", point.direction().word(),
        "load", point.load(),
        "force_n", point.newtons(),
        "deflection_counts", point.counts(),
        "residual_counts", point.counts() - evaluation.choice().fit().predict(point.newtons()));
  }

  private static Map<String, Object> figure(Figure figure) {
    return Json.object(
        "name", ENGLISH.say(figure.name()),
        "value", figure.value(),
        "unit", figure.unit(),
        "definition", ENGLISH.say(figure.definition()),
        "source", ENGLISH.say(figure.source()));
  }

  static Map<String, Object> verification(Verification check) {
    return Json.object(
        "at", check.at().toString(),
        "calibration", check.calibrationId(),
        "known_n", check.known().value().newtons(),
        "shown_n", check.shown().value().newtons(),
        "limit_n", check.limit().newtons(),
        "within", check.withinLimit());
  }
}
