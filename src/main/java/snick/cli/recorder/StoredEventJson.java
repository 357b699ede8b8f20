package snick.cli.recorder;

import java.util.LinkedHashMap;
import java.util.Map;
import snick.cli.terminal.Numbers;
import snick.daemon.AnnouncedCut;
import snick.json.AttributeJson;
import snick.store.record.CutForce;
import snick.store.record.Derivation;

/** One stored event as a JSON object. */
final class StoredEventJson {
  private StoredEventJson() {}

  static Map<String, Object> of(AnnouncedCut cut) {
    Map<String, Object> event = new LinkedHashMap<>();
    event.put("id", cut.id());
    event.put("rig", cut.rig());
    event.put("occurred_at", cut.stored().occurredAt().toString());
    event.put("cut", cut.cut().number());
    event.putAll(
        AttributeJson.of(
            Derivation.ATTRIBUTES, Derivation.own(cut.cut(), cut.stored().occurredAt())));
    cut.stored()
        .force()
        .ifPresent(
            force -> {
              event.put("calibration", force.calibrationId());
              event.putAll(AttributeJson.of(CutForce.ATTRIBUTES, force));
            });
    event.put("latency_ms", Numbers.millionths(cut.latencyNanos() / 1e6));
    return event;
  }
}
