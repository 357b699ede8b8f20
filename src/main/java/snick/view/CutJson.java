package snick.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import snick.cut.Flag;
import snick.cut.Peak;
import snick.cut.Trace;
import snick.force.budget.Coverage;
import snick.force.budget.DerivedForce;
import snick.quantity.Force;
import snick.quantity.MeasuredForce;
import snick.store.record.CutPlace;
import snick.store.record.CutSummary;
import snick.store.record.StoredCut;
import snick.store.record.StoredForce;
import snick.view.http.Json;

/** Stored cuts as JSON. Pure. */
final class CutJson {
  private CutJson() {}

  /** A cut without its trace. */
  static Map<String, Object> of(CutSummary cut) {
    return Json.object(
        "id", cut.id(),
        "at", cut.occurredAt().toString(),
        "outcome", cut.result().outcome().word(),
        "flags", cut.result().flags().stream().map(Flag::word).sorted().toList(),
        "force", cut.force().flatMap(CutJson::force),
        "counts", cut.result().peak().map(CutJson::counts),
        "session", cut.place().map(CutPlace::session),
        "stage", cut.place().map(place -> place.stage().name()),
        "place_mm",
            cut.place()
                .map(CutPlace::placeMm)
                .filter(mm -> mm.isPresent())
                .map(mm -> mm.getAsDouble()),
        "set_aside", cut.setAside());
  }

  /**
   * A cut with its trace: device time in s since the first sample of the trace, readings in counts.
   */
  static Map<String, Object> of(StoredCut cut) {
    Map<String, Object> object = of(cut.summary());
    Trace trace = cut.trace();
    List<Object> seconds = new ArrayList<>();
    List<Object> counts = new ArrayList<>();
    for (int i = 0; i < trace.size(); i++) {
      seconds.add((trace.deviceNanos(i) - trace.deviceNanos(0)) / 1e9);
      counts.add(trace.counts(i));
    }
    object.put("polarity", cut.summary().result().polarity());
    object.put("zero_before_counts", cut.summary().result().rest().zeroBeforeCounts());
    object.put("trace", Json.object("t", seconds, "counts", counts));
    return object;
  }

  private static Map<String, Object> counts(Peak peak) {
    return Json.object(
        "estimate", peak.estimateCounts(),
        "standard_uncertainty", peak.standardUncertaintyCounts(),
        "observed_max", peak.observedMaxCounts());
  }

  private static Optional<Object> force(StoredForce stored) {
    DerivedForce estimate = stored.force().estimate();
    Force observedMax = stored.force().observedMax();
    return estimate
        .measured()
        .map(
            force ->
                Json.object(
                    "gf", force.value().gramForce(),
                    "newtons", force.value().newtons(),
                    "expanded_uncertainty_gf", expandedGf(estimate, force),
                    "standard_uncertainty_newtons", force.standardUncertainty().newtons(),
                    "observed_max_gf", observedMax.gramForce(),
                    "inside_calibrated_range", estimate instanceof DerivedForce.Inside));
  }

  /** Half width of the 95 % interval, gf. */
  private static double expandedGf(DerivedForce estimate, MeasuredForce force) {
    double degreesOfFreedom =
        estimate instanceof DerivedForce.Inside inside
            ? inside.degreesOfFreedom()
            : Double.POSITIVE_INFINITY;
    return Coverage.factor(Coverage.USUAL_PROBABILITY, degreesOfFreedom)
        * force.standardUncertainty().gramForce();
  }
}
