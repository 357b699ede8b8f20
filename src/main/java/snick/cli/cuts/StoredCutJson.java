package snick.cli.cuts;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import snick.cut.Cut;
import snick.cut.Flag;
import snick.cut.Peak;
import snick.cut.Trace;
import snick.quantity.MeasuredForce;
import snick.store.record.CutSummary;
import snick.store.record.StoredCut;
import snick.store.record.StoredResult;

/** A stored cut as a JSON object, numbers as they are. */
final class StoredCutJson {
  private StoredCutJson() {}

  /** Without the trace. */
  static Map<String, Object> of(CutSummary cut) {
    Map<String, Object> object = new LinkedHashMap<>();
    object.put("id", cut.id());
    object.put("recording", cut.recordingId());
    object.put("cut", cut.number());
    object.put("occurred_at", cut.occurredAt().toString());
    object.put("outcome", cut.result().outcome().word());
    cut.result().peak().ifPresent(peak -> putPeak(object, peak));
    cut.force()
        .flatMap(f -> f.force().estimate().measured())
        .ifPresent(force -> putForce(object, force));
    cut.force().ifPresent(f -> object.put("observed_max_n", f.force().observedMax().newtons()));
    cut.missing().ifPresent(why -> object.put("force_missing", why));
    putShape(object, cut.result());
    cut.place()
        .ifPresent(
            place -> {
              object.put("session", place.session());
              object.put("stage", place.stage().name());
              place.placeMm().ifPresent(mm -> object.put("place_mm", mm));
            });
    cut.setAside().ifPresent(why -> object.put("set_aside", why));
    object.put("flags", cut.result().flags().stream().map(Flag::word).sorted().toList());
    object.put("detector_version", cut.result().detectorVersion());
    cut.result().responseId().ifPresent(id -> object.put("response", id));
    return object;
  }

  private static void putPeak(Map<String, Object> object, Peak peak) {
    object.put("observed_max_counts", peak.observedMaxCounts());
    object.put("estimate_counts", peak.estimateCounts());
    object.put("u_counts", peak.standardUncertaintyCounts());
  }

  private static void putForce(Map<String, Object> object, MeasuredForce force) {
    object.put("force_n", force.value().newtons());
    object.put("u_n", force.standardUncertainty().newtons());
    object.put("force_gf", force.value().gramForce());
    object.put("u_gf", force.standardUncertainty().gramForce());
  }

  private static void putShape(Map<String, Object> object, StoredResult result) {
    object.put("onset_s", result.onsetNanos() / 1e9);
    result.breakNanos().ifPresent(nanos -> object.put("break_s", nanos / 1e9));
    object.put("loading_rate_counts_s", result.shape().loadingRateCountsPerSecond());
    object.put("fall_ms", result.shape().fallNanos() / 1e6);
    object.put("dips", result.shape().dips());
    object.put("ramp_samples", result.shape().rampSamples());
    object.put("zero_before_counts", result.rest().zeroBeforeCounts());
    object.put("zero_after_counts", result.rest().zeroAfterCounts());
    object.put("noise_counts", result.rest().noiseCounts());
  }

  /** With the raw samples. */
  static Map<String, Object> withTrace(StoredCut stored) {
    Map<String, Object> object = of(stored.summary());
    Cut cut = stored.cut();
    Trace trace = cut.trace();
    List<Long> nanos = new ArrayList<>(trace.size());
    List<Integer> counts = new ArrayList<>(trace.size());
    for (int i = 0; i < trace.size(); i++) {
      nanos.add(trace.deviceNanos(i));
      counts.add(trace.counts(i));
    }
    object.put("device_ns", nanos);
    object.put("counts", counts);
    return object;
  }
}
