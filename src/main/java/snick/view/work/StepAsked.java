package snick.view.work;

import java.util.Map;
import java.util.Optional;
import snick.force.reading.CalibrationPlan;
import snick.force.reading.HeldReading;
import snick.force.reading.Steadiness;
import snick.json.Json;

/** Steps and readings of guided work as JSON. Pure. */
final class StepAsked {
  private StepAsked() {}

  static Optional<Map<String, Object>> of(Optional<CalibrationPlan.Step> step) {
    return step.map(StepAsked::object);
  }

  private static Map<String, Object> object(CalibrationPlan.Step step) {
    if (step instanceof CalibrationPlan.Step.PutOn on) {
      return Json.object("do", "put_on", "load", on.load().name());
    }
    if (step instanceof CalibrationPlan.Step.Rest rest) {
      return Json.object("do", "rest", "load", rest.load().name(), "seconds", rest.seconds());
    }
    return Json.object("do", "unload");
  }

  static Map<String, Object> of(Steadiness.Settling settling) {
    return Json.object(
        "drift_counts", Math.abs(settling.driftCounts()),
        "drift_limit_counts", settling.driftLimitCounts(),
        "scatter_counts", settling.scatterCounts(),
        "scatter_limit_counts", settling.scatterLimitCounts(),
        "filled_s", settling.filledSeconds());
  }

  static Map<String, Object> of(HeldReading reading) {
    return Json.object(
        "counts", reading.meanCounts(),
        "sd_counts", reading.sdCounts(),
        "samples", reading.samples());
  }
}
