package snick.cli.recorder;

import java.util.LinkedHashMap;
import java.util.Map;
import snick.cli.terminal.Numbers;
import snick.cut.Flag;
import snick.daemon.AnnouncedCut;

/** One stored event as a JSON object. */
final class StoredEventJson {
  private StoredEventJson() {}

  static Map<String, Object> of(AnnouncedCut stored) {
    Map<String, Object> event = new LinkedHashMap<>();
    event.put("id", stored.id());
    event.put("rig", stored.rig());
    event.put("occurred_at", stored.occurredAt().toString());
    event.put("cut", stored.cut().number());
    event.put("outcome", stored.cut().outcome().word());
    stored
        .cut()
        .peak()
        .ifPresent(
            peak -> {
              event.put("observed_max_counts", peak.observedMaxCounts());
              event.put("estimate_counts", peak.estimateCounts());
              event.put("u_counts", peak.standardUncertaintyCounts());
            });
    stored
        .force()
        .measured()
        .ifPresent(
            force -> {
              event.put("force_n", force.value().newtons());
              event.put("u_n", force.standardUncertainty().newtons());
              event.put("force_gf", Numbers.millionths(force.value().gramForce()));
              event.put("u_gf", Numbers.millionths(force.standardUncertainty().gramForce()));
            });
    event.put("flags", stored.cut().flags().stream().map(Flag::word).sorted().toList());
    event.put("latency_ms", Numbers.millionths(stored.latencyNanos() / 1e6));
    return event;
  }
}
