package snick.cli.verification;

import java.util.Optional;
import java.util.stream.Collectors;
import snick.cli.bench.BenchFeed;
import snick.cli.calibration.PlaceChoice;
import snick.cli.option.DataDirectory;
import snick.cli.option.OpenedStore;
import snick.cli.terminal.Numbers;
import snick.cli.terminal.Refusal;
import snick.force.budget.Calibration;
import snick.force.mass.AirDensity;
import snick.force.mass.Gravity;
import snick.force.mass.Load;
import snick.force.reading.RigSetting;
import snick.phrase.Words;
import snick.report.sheet.BenchSheet;
import snick.store.StoreReader;
import snick.store.record.StoredCalibration;

/**
 * The calibration in use for the rig at the bench.
 *
 * @param calibration bound to this rig and fitting its setting
 * @param setting the rig now
 * @param sheet what it was made from; empty if it was typed in
 */
record CalibrationInUse(Calibration calibration, RigSetting setting, Optional<BenchSheet> sheet) {
  /**
   * The calibration of the rig of {@code bench}.
   *
   * @throws Refusal if there is none that fits
   */
  static CalibrationInUse of(BenchFeed bench, DataDirectory data) {
    String device = bench.setting().deviceId();
    try (StoreReader store = OpenedStore.toRead(data)) {
      StoredCalibration stored =
          store
              .currentCalibration(device)
              .filter(c -> c.calibration().boundTo().isPresent())
              .orElseThrow(
                  () ->
                      Refusal.unavailable(
                          "no calibration of rig " + device + "; make one: snick calibrate"));
      return of(stored, bench);
    }
  }

  private static CalibrationInUse of(StoredCalibration stored, BenchFeed bench) {
    Calibration calibration = stored.calibration();
    RigSetting now = bench.setting(calibration.boundTo().orElseThrow().polarity());
    if (calibration.fits(now) instanceof Calibration.Fit.Stranger stranger) {
      throw Refusal.unavailable(
          stranger.reasons().stream().map(Words.english()::say).collect(Collectors.joining("; "))
              + "; set the rig as it was, or calibrate again");
    }
    return new CalibrationInUse(
        calibration, now, stored.document().flatMap(CalibrationInUse::sheet));
  }

  private static Optional<BenchSheet> sheet(String document) {
    try {
      return Optional.of(BenchSheet.parse(document));
    } catch (RuntimeException e) {
      return Optional.empty();
    }
  }

  /** Gravity as stated, else that of the calibration. */
  Gravity gravity(PlaceChoice place) {
    return place
        .gravity()
        .or(() -> sheet.map(s -> s.conditions().gravity()))
        .orElseThrow(PlaceChoice::missing);
  }

  /**
   * Refuses a load outside the calibrated range before anybody hangs it.
   *
   * @throws Refusal if it lies outside
   */
  void requireInRange(Load.Exerted load) {
    if (!calibration.range().holds(load.force().newtons())) {
      throw Refusal.badInput(
          "a mass of %s gf lies outside the calibrated range, %s gf to %s gf;"
              + " take one inside it",
          Numbers.gramForce(load.force()),
          Numbers.gramForce(calibration.range().from()),
          Numbers.gramForce(calibration.range().to()));
    }
  }

  /** Air as stated, else that of the calibration. */
  AirDensity air(PlaceChoice place) {
    return place
        .airMeasured()
        .or(() -> sheet.map(s -> s.conditions().air()))
        .orElseGet(AirDensity::standard);
  }
}
