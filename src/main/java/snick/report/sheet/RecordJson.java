package snick.report.sheet;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import snick.force.budget.BudgetTerm;
import snick.force.budget.Calibration;
import snick.force.budget.CombinedUncertainty;
import snick.force.budget.Contribution;
import snick.force.budget.Evaluation;
import snick.force.budget.Figure;
import snick.force.fit.CalibrationCurve;
import snick.force.reading.Deflection;
import snick.phrase.Words;
import snick.store.record.Verification;

/** A calibration record as JSON; infinite degrees of freedom are left out. */
final class RecordJson {
  /** Read by programs: the same in every language. */
  private static final Words ENGLISH = Words.english();

  private RecordJson() {}

  static Map<String, Object> of(CalibrationRecord record) {
    Calibration calibration = record.calibration();
    Map<String, Object> object = new LinkedHashMap<>();
    object.put("what_it_is", ENGLISH.say(CalibrationRecord.WHAT_IT_IS));
    object.put("id", calibration.id());
    object.put("number", record.stored().number());
    object.put("made", calibration.made().toString());
    object.put("stored_at", record.stored().createdAt().toString());
    calibration
        .validFor()
        .ifPresent(d -> object.put("valid_until", calibration.made().plus(d).toString()));
    calibration.boundTo().ifPresent(rig -> object.put("rig", BenchJson.of(rig)));
    object.put("basis", calibration.basis());
    object.put("from_n", calibration.range().from().newtons());
    object.put("to_n", calibration.range().to().newtons());
    object.put("curve", curve(calibration.curve()));
    object.put("terms", calibration.terms().stream().map(RecordJson::term).toList());
    object.put("budget", record.budget().stream().map(RecordJson::uncertainty).toList());
    record.evaluation().ifPresent(e -> evaluation(object, e));
    record.sheet().ifPresent(sheet -> object.put("sheet", sheet.json()));
    object.put(
        "verifications", record.verifications().stream().map(RecordJson::verification).toList());
    object.put("remarks", record.remarks().stream().map(ENGLISH::say).toList());
    return object;
  }

  private static Map<String, Object> curve(CalibrationCurve curve) {
    Map<String, Object> object = new LinkedHashMap<>();
    object.put("unit", "counts over N");
    object.put("coefficients", list(curve.coefficients()));
    object.put("covariance", Arrays.stream(curve.covariance()).map(RecordJson::list).toList());
    putFinite(object, "degrees_of_freedom", curve.degreesOfFreedom());
    return object;
  }

  private static List<Double> list(double[] values) {
    return Arrays.stream(values).boxed().toList();
  }

  private static void putFinite(Map<String, Object> object, String name, double value) {
    if (Double.isFinite(value)) {
      object.put(name, value);
    }
  }

  private static Map<String, Object> term(BudgetTerm term) {
    Map<String, Object> object = new LinkedHashMap<>();
    object.put("source", term.source().word());
    object.put("distribution", term.distribution().word());
    object.put("absolute_n", term.absolute().newtons());
    object.put("relative", term.relative());
    object.put("sensitivity", 1);
    putFinite(object, "degrees_of_freedom", term.degreesOfFreedom());
    object.put("basis", term.basis());
    return object;
  }

  static Map<String, Object> uncertainty(CombinedUncertainty at) {
    Map<String, Object> object = new LinkedHashMap<>();
    object.put("force_n", at.newtons());
    object.put("u_n", at.standardNewtons());
    putFinite(object, "degrees_of_freedom", at.degreesOfFreedom());
    object.put("k", at.coverageFactor());
    object.put("expanded_n", at.expandedNewtons());
    object.put("contributions", at.parts().stream().map(RecordJson::contribution).toList());
    return object;
  }

  private static Map<String, Object> contribution(Contribution part) {
    Map<String, Object> object = new LinkedHashMap<>();
    object.put("source", part.source().word());
    object.put("distribution", part.distribution().word());
    object.put("u_n", part.standardUncertaintyNewtons());
    putFinite(object, "degrees_of_freedom", part.degreesOfFreedom());
    return object;
  }

  private static void evaluation(Map<String, Object> object, Evaluation evaluation) {
    object.put("degree_reason", evaluation.choice().reason());
    object.put("points", evaluation.deflections().stream().map(d -> point(d, evaluation)).toList());
    object.put("figures_of_merit", evaluation.figures().stream().map(RecordJson::figure).toList());
  }

  private static Map<String, Object> point(Deflection point, Evaluation evaluation) {
    Map<String, Object> object = new LinkedHashMap<>();
    object.put("run", point.run());
    object.put("direction", point.direction().word());
    object.put("load", point.load());
    object.put("force_n", point.newtons());
    object.put("deflection_counts", point.counts());
    object.put(
        "residual_counts", point.counts() - evaluation.choice().fit().predict(point.newtons()));
    return object;
  }

  private static Map<String, Object> figure(Figure figure) {
    Map<String, Object> object = new LinkedHashMap<>();
    object.put("name", ENGLISH.say(figure.name()));
    object.put("value", figure.value());
    object.put("unit", figure.unit());
    object.put("definition", ENGLISH.say(figure.definition()));
    object.put("source", ENGLISH.say(figure.source()));
    return object;
  }

  static Map<String, Object> verification(Verification check) {
    Map<String, Object> object = new LinkedHashMap<>();
    object.put("at", check.at().toString());
    object.put("calibration", check.calibrationId());
    object.put("known_n", check.known().value().newtons());
    object.put("shown_n", check.shown().value().newtons());
    object.put("limit_n", check.limit().newtons());
    object.put("within", check.withinLimit());
    return object;
  }
}
