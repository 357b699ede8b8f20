package snick.view;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
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
    Map<String, Object> health = new LinkedHashMap<>();
    health.put("recording", state.recording());
    health.put("losing", state.lostSamples() > 0);
    health.put("calibrated", state.calibrated());
    health.put("storing", state.storing());
    health.put("waiting", state.waiting());
    health.put("started_at", state.startedAt().toString());
    health.put("rigs", rigs(state));
    health.put("faults", faults(state, words));
    return Json.text(health) + "\n";
  }

  private static List<Object> rigs(BenchState state) {
    List<Object> rigs = new ArrayList<>();
    for (RigState rig : state.rigs()) {
      Map<String, Object> entry = new LinkedHashMap<>();
      entry.put("rig", rig.rig());
      entry.put("port", rig.port());
      entry.put("link", rig.link().name().toLowerCase(Locale.ROOT));
      rig.device().ifPresent(device -> entry.put("device_id", device));
      rig.clock().rateHertz().ifPresent(rate -> entry.put("rate_hz", rate));
      rig.clock().errorPpm().ifPresent(ppm -> entry.put("clock_error_ppm", ppm));
      rig.signal().rest().ifPresent(rest -> entry.put("noise_counts", rest.noiseCounts()));
      entry.put("samples", rig.traffic().facts().samples());
      entry.put("lost_samples", rig.traffic().facts().lost().samples());
      entry.put("restarts", rig.traffic().facts().restarts());
      entry.put("reopened", rig.traffic().facts().reopened());
      entry.put("calibrated", rig.signal().calibrated());
      rigs.add(entry);
    }
    return rigs;
  }

  private static List<Object> faults(BenchState state, Words words) {
    List<Object> faults = new ArrayList<>();
    for (Fact fault : state.faults()) {
      Map<String, Object> entry = new LinkedHashMap<>();
      entry.put("kind", fault.kind());
      entry.put("text", words.say(fault.what()));
      entry.put("count", fault.count());
      entry.put("first", fault.first().toString());
      entry.put("last", fault.last().toString());
      faults.add(entry);
    }
    return faults;
  }
}
