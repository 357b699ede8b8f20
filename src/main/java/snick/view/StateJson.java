package snick.view;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import snick.force.budget.Calibration;
import snick.json.Json;
import snick.live.BenchState;
import snick.live.RigState;
import snick.phrase.Words;
import snick.store.record.Verification;

/** How the rigs are doing, for the page: figures, and the same in words. Pure. */
final class StateJson {
  private StateJson() {}

  /** The present state; {@code calibrations} and {@code checks} by rig. */
  static Map<String, Object> of(
      BenchState state, List<RigFacts> rigs, RigWorks works, Words words, Instant now) {
    List<Object> entries = new ArrayList<>();
    for (RigState rig : state.rigs()) {
      Map<String, Object> entry = of(rig, rigs.get(rig.rig()), now);
      works.json(rig.rig()).ifPresent(work -> entry.put("work", work));
      entry.put("unfinished_calibration", works.unfinished(rig.rig()));
      entries.add(entry);
    }
    return Json.object(
        "run", state.startedAt().toString(),
        "recording", state.recording(),
        "storing", state.storing(),
        "waiting", state.waiting(),
        "rigs", entries,
        "faults", HealthJson.faults(state, words));
  }

  private static Map<String, Object> of(RigState rig, RigFacts facts, Instant now) {
    Optional<Calibration> calibration = facts.calibration();
    Optional<RigState.Rest> rest = rig.signal().rest();
    return Json.object(
        "rig", rig.rig(),
        "port", rig.port(),
        "link", rig.link().word(),
        "link_since", facts.linkSince().map(Instant::toString),
        "device_id", rig.device(),
        "loaded", rig.signal().loaded(),
        "rate_hz", rig.clock().rateHertz(),
        "samples", rig.traffic().facts().samples(),
        "lost_samples", rig.traffic().facts().lost().samples(),
        "noise_counts", rest.map(RigState.Rest::noiseCounts),
        "noise_gf", calibration.flatMap(c -> rest.map(r -> gf(c, r.noiseCounts()))),
        "zero_drift_gf", calibration.flatMap(c -> drift(rig, facts).map(counts -> gf(c, counts))),
        "calibrated", calibration.isPresent(),
        "calibration_age_s", calibration.filter(StateJson::dated).map(c -> seconds(c.made(), now)),
        "calibration_expired",
            calibration.map(c -> c.validityAt(now) == Calibration.Validity.EXPIRED),
        "verified_age_s", facts.check().map(check -> seconds(check.at(), now)),
        "verified_within_limit", facts.check().map(Verification::withinLimit));
  }

  /** How far the reading at rest has moved since the page first saw one, counts. */
  private static Optional<Double> drift(RigState rig, RigFacts facts) {
    return rig.signal()
        .rest()
        .filter(rest -> facts.firstZeroCounts().isPresent())
        .map(rest -> rest.levelCounts() - facts.firstZeroCounts().getAsDouble());
  }

  /** One that was typed in has no date: it is made at the epoch. */
  private static boolean dated(Calibration calibration) {
    return calibration.made().isAfter(Instant.EPOCH);
  }

  private static double gf(Calibration calibration, double counts) {
    return calibration.force(counts, 0).value().gramForce()
        - calibration.force(0, 0).value().gramForce();
  }

  private static long seconds(Instant then, Instant now) {
    return Duration.between(then, now).toSeconds();
  }
}
