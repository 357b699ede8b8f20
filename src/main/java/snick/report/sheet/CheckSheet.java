package snick.report.sheet;

import java.time.Instant;
import java.util.List;
import snick.force.budget.Calibration;
import snick.force.check.MassCheck;
import snick.force.mass.Load;
import snick.force.reading.HeldReading;
import snick.force.reading.RigSetting;
import snick.json.Json;
import snick.quantity.Force;
import snick.quantity.MeasuredForce;

/** A check with a mass as the store keeps it. */
public final class CheckSheet {
  private CheckSheet() {}

  /**
   * What was read.
   *
   * @param load what was hung
   * @param exerted its force
   * @param readings without load and under it
   * @param at when
   */
  public record Reading(Load load, Load.Exerted exerted, List<HeldReading> readings, Instant at) {
    public Reading {
      readings = List.copyOf(readings);
    }
  }

  /** The check of {@code calibration}, which is bound to its rig. */
  public static snick.store.record.Verification of(
      Calibration calibration, MassCheck result, Reading read) {
    Load.Exerted exerted = read.exerted();
    double ofLoad =
        Math.hypot(
            exerted.byMassesNewtons(),
            Math.hypot(exerted.byGravityNewtons(), exerted.byBuoyancyNewtons()));
    double difference = result.standardUncertaintyNewtons();
    double ofShown = Math.sqrt(Math.max(0, difference * difference - ofLoad * ofLoad));
    return new snick.store.record.Verification(
        calibration.boundTo().map(RigSetting::deviceId).orElseThrow(),
        result.calibrationId(),
        read.at(),
        MeasuredForce.ofNewtons(result.expectedNewtons(), ofLoad),
        MeasuredForce.ofNewtons(result.measuredNewtons(), ofShown),
        Force.ofNewtons(result.limitNewtons()),
        document(read));
  }

  private static String document(Reading read) {
    return Json.text(
        Json.object(
            "mass", read.load().name(),
            "zero_counts", read.readings().get(0).meanCounts(),
            "loaded_counts", read.readings().get(1).meanCounts(),
            "sd_counts", read.readings().get(1).sdCounts()));
  }
}
