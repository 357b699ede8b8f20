package snick.cli.journal;

import java.util.Optional;
import java.util.OptionalDouble;
import picocli.CommandLine.Option;
import snick.cli.terminal.Refusal;
import snick.journal.Session;
import snick.journal.Session.Equipment;
import snick.store.StoreReader;

/** What can be said of a session. */
final class SessionFields {
  @Option(names = "--lot", paramLabel = "LOT", description = "The filament lot.")
  private Optional<String> lot;

  @Option(
      names = "--rig",
      paramLabel = "ID",
      description = "Take cuts of this rig only; without it, of any.")
  private Optional<String> rig;

  @Option(names = "--calibration", paramLabel = "ID", description = "The calibration in force.")
  private Optional<String> calibration;

  @Option(names = "--room", paramLabel = "C", description = "Room temperature, °C.")
  private Optional<Double> roomCelsius;

  @Option(names = "--operator", paramLabel = "ALIAS", description = "Who cuts: an alias.")
  private Optional<String> operator;

  /** {@code before} with what was said in place of what it says; lot and calibration are known. */
  Session over(Session before, StoreReader store) {
    calibration.ifPresent(id -> requireCalibration(store, id));
    return new Session(
        before.name(),
        before.blade(),
        new Equipment(
            lot.map(name -> store.journal().lotMeant(name).lot())
                .or(before.equipment()::filamentLot),
            rig.or(before.equipment()::rig),
            calibration.or(before.equipment()::calibration)),
        roomCelsius.map(OptionalDouble::of).orElse(before.roomCelsius()),
        operator.or(before::operator),
        before.opened(),
        before.closed());
  }

  private static void requireCalibration(StoreReader store, String id) {
    if (store.calibration(id).isEmpty()) {
      throw Refusal.badInput("calibration '" + id + "' is not in the store");
    }
  }
}
