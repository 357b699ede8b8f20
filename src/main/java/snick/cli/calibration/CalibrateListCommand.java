package snick.cli.calibration;

import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import snick.cli.option.ReadingCommand;
import snick.cli.terminal.Numbers;
import snick.cli.terminal.Table;
import snick.cli.terminal.WallTime;
import snick.force.budget.Calibration;
import snick.force.budget.CombinedUncertainty;
import snick.force.reading.RigSetting;
import snick.json.Json;
import snick.store.StoreReader;
import snick.store.record.StoredCalibration;

/** Lists the calibrations in the store. */
@Command(
    name = "list",
    description = "List stored calibrations, oldest first; the last one of a rig is in use.",
    footer = {"  snick calibrate list", "  snick calibrate list --rig 51a0000000000001 --json"})
final class CalibrateListCommand extends ReadingCommand {
  /** Keeps the table narrow, whatever an imported calibration says of itself. */
  private static final int BASIS_LETTERS = 36;

  @Option(names = "--rig", paramLabel = "ID", description = "Only those of one rig.")
  private Optional<String> device;

  @Option(names = "--json", description = "One JSON object a line for each.")
  private boolean json;

  @Override
  protected void read(StoreReader store) {
    List<StoredCalibration> chosen = store.calibrations().stream().filter(this::isChosen).toList();
    Instant now = Clock.systemUTC().instant();
    tellEach(
        json,
        chosen,
        one -> object(one, store, now),
        data.in("No calibrations yet. Make one: snick calibrate PORT, or try --virtual"),
        () -> print(chosen, store, now));
  }

  private boolean isChosen(StoredCalibration stored) {
    return device.isEmpty()
        || stored.calibration().boundTo().map(RigSetting::deviceId).equals(device);
  }

  private void print(List<StoredCalibration> stored, StoreReader store, Instant now) {
    Table table =
        new Table("NO", "ID", "MADE", "RIG", ">TO gf", ">U AT TOP gf", "STATE", "BASIS")
            .broken(7, BASIS_LETTERS);
    stored.forEach(one -> row(table, one, store, now));
    table.print(out());
  }

  private static void row(Table table, StoredCalibration stored, StoreReader store, Instant now) {
    Calibration calibration = stored.calibration();
    table.row(
        stored.number(),
        calibration.id(),
        CalibrationText.dated(calibration) ? WallTime.day(calibration.made()) : "-",
        calibration.boundTo().map(RigSetting::deviceId).orElse("any"),
        Numbers.gramForce(calibration.range().to()),
        CalibrationText.small(atTop(calibration).expandedNewtons()),
        state(stored, store, now),
        calibration.basis());
  }

  private static CombinedUncertainty atTop(Calibration calibration) {
    return CombinedUncertainty.over(calibration, 1, 0).get(0);
  }

  private static String state(StoredCalibration stored, StoreReader store, Instant now) {
    String validity = stored.calibration().validityAt(now).plain();
    return isInUse(stored, store) ? "in use, " + validity : validity;
  }

  private static boolean isInUse(StoredCalibration stored, StoreReader store) {
    return stored
        .calibration()
        .boundTo()
        .flatMap(rig -> store.currentCalibration(rig.deviceId()))
        .map(current -> current.number() == stored.number())
        .orElse(false);
  }

  private static Map<String, Object> object(
      StoredCalibration stored, StoreReader store, Instant now) {
    Calibration calibration = stored.calibration();
    return Json.object(
        "number", stored.number(),
        "id", calibration.id(),
        "made", calibration.made().toString(),
        "device", calibration.boundTo().map(rig -> rig.deviceId()),
        "to_n", calibration.range().to().newtons(),
        "expanded_at_top_n", atTop(calibration).expandedNewtons(),
        "in_use", isInUse(stored, store),
        "validity", calibration.validityAt(now).word(),
        "basis", calibration.basis());
  }
}
