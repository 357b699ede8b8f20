package snick.cli.cuts;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import snick.cut.Trace;
import snick.json.AttributeJson;
import snick.store.record.CutSummary;
import snick.store.record.StoredCut;

/** A stored cut as a JSON object, numbers as they are. */
final class StoredCutJson {
  private StoredCutJson() {}

  /** Without the trace. */
  static Map<String, Object> of(CutSummary cut) {
    return AttributeJson.of(CutSummary.ATTRIBUTES, cut);
  }

  /** With the raw samples. */
  static Map<String, Object> withTrace(StoredCut stored) {
    Map<String, Object> object = of(stored.summary());
    Trace trace = stored.trace();
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
