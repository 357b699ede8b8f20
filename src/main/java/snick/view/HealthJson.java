package snick.view;

import java.util.List;
import java.util.Map;
import snick.json.Json;
import snick.live.BenchState;
import snick.live.Fact;
import snick.live.RigState;
import snick.phrase.Words;

/**
 * The recorder's health as JSON: recording? losing? calibrated? What is not known of a rig yet is
 * left out. Pure.
 */
final class HealthJson {
  private HealthJson() {}

  static String of(BenchState state, Words words) {
    Map<String, Object> health =
        Json.object(
            "recording", state.recording(),
            "losing", state.lostSamples() > 0,
            "calibrated", state.calibrated(),
            "storing", state.storing(),
            "waiting", state.waiting(),
            "started_at", state.startedAt().toString(),
            "rigs", state.rigs().stream().map(HealthJson::rig).toList(),
            "faults", faults(state, words));
    return Json.text(health) + "\n";
  }

  private static Map<String, Object> rig(RigState rig) {
    return Json.object(
        "rig", rig.rig(),
        "port", rig.port(),
        "link", rig.link().word(),
        "device_id", rig.device(),
        "rate_hz", rig.clock().rateHertz(),
        "clock_error_ppm", rig.clock().errorPpm(),
        "noise_counts", rig.signal().rest().map(RigState.Rest::noiseCounts),
        "samples", rig.traffic().facts().samples(),
        "lost_samples", rig.traffic().facts().lost().samples(),
        "restarts", rig.traffic().facts().restarts(),
        "reopened", rig.traffic().facts().reopened(),
        "calibrated", rig.signal().calibrated());
  }

  /** What went wrong, in the words of a language. */
  static List<Map<String, Object>> faults(BenchState state, Words words) {
    return state.faults().stream().map(fault -> fault(fault, words)).toList();
  }

  private static Map<String, Object> fault(Fact fault, Words words) {
    return Json.object(
        "kind", fault.kind(),
        "text", words.say(fault.what()),
        "count", fault.count(),
        "first", fault.first().toString(),
        "last", fault.last().toString());
  }
}
