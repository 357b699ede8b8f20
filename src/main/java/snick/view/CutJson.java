package snick.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import snick.cut.Trace;
import snick.force.budget.DerivedForce;
import snick.json.AttributeJson;
import snick.json.Json;
import snick.quantity.Force;
import snick.report.plot.Shown;
import snick.store.record.CutSummary;
import snick.store.record.StoredCut;

/** Stored cuts as JSON. Pure. */
final class CutJson {
  private CutJson() {}

  /** A cut without its trace, with the expanded uncertainty of its force (k = 2). */
  static Map<String, Object> of(CutSummary cut) {
    Map<String, Object> object = AttributeJson.of(CutSummary.ATTRIBUTES, cut);
    cut.force().ifPresent(f -> object.put("expanded_gf", expandedGf(f.estimate())));
    return object;
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
    object.put("trace", Json.object("t", seconds, "counts", counts));
    return object;
  }

  private static double expandedGf(DerivedForce estimate) {
    return Shown.expandedNewtons(estimate.measured().orElseThrow()) / Force.NEWTONS_PER_GRAM_FORCE;
  }
}
