package snick.journal;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.journal.name.Field;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;

/**
 * One sitting at the rig with one blade and one filament lot.
 *
 * @param name key of the session, 1 to 120 characters
 * @param blade label of the blade
 * @param equipment what the edge is measured with
 * @param roomCelsius room temperature, −20 to 60 °C
 * @param operator alias of the operator, not a real name; if noted
 * @param opened start
 * @param closed end, not before the start; empty while the session runs
 */
public record Session(
    String name,
    String blade,
    Equipment equipment,
    OptionalDouble roomCelsius,
    Optional<String> operator,
    Instant opened,
    Optional<Instant> closed) {
  /**
   * What edges are measured with in one session.
   *
   * @param filamentLot name of the lot, if noted
   * @param rig device id of the rig, if known
   * @param calibration id of the calibration in force, if any
   */
  public record Equipment(
      Optional<String> filamentLot, Optional<String> rig, Optional<String> calibration) {
    public Equipment {
      filamentLot = Field.name("filament lot", filamentLot);
      rig = Field.name("rig id", rig);
      calibration = Field.name("calibration id", calibration);
    }
  }

  private static final int LONGEST_BLADE_IN_NAME = 90;
  private static final DateTimeFormatter SECOND =
      DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm:ss", Locale.ROOT);

  public Session {
    name = Field.name("session name", name);
    blade = Field.name("blade label", blade);
    Field.within("room temperature", roomCelsius, -20, 60, "°C");
    operator = Field.name("operator alias", operator);
    if (closed.isPresent() && closed.get().isBefore(opened)) {
      throw new NotAccepted(
          Phrase.of("refused.closes_before_it_opened")
              .with("session", name)
              .with("closed", closed.get())
              .with("opened", opened));
    }
  }

  /** What a session is called if its owner gives it no name: blade and local time. */
  public static String usualName(String blade, LocalDateTime opened) {
    return blade.substring(0, Math.min(blade.length(), LONGEST_BLADE_IN_NAME))
        + " "
        + SECOND.format(opened);
  }

  /** This session, ended at {@code at}. A session closes once. */
  public Session closedAt(Instant at) {
    requireOpen(Phrase.of("cannot.close_again"));
    return closed(Optional.of(at));
  }

  /** This session with another end, or with none. */
  public Session closed(Optional<Instant> at) {
    return new Session(name, blade, equipment, roomCelsius, operator, opened, at);
  }

  /** This session under another name. */
  public Session withName(String newName) {
    return new Session(newName, blade, equipment, roomCelsius, operator, opened, closed);
  }

  /** This session with another blade. */
  public Session withBlade(String label) {
    return new Session(name, label, equipment, roomCelsius, operator, opened, closed);
  }

  /** This session with another filament lot, or with none noted. */
  public Session withLot(Optional<String> lot) {
    return measuredWith(new Equipment(lot, equipment.rig(), equipment.calibration()));
  }

  /** This session with other equipment. */
  public Session measuredWith(Equipment used) {
    return new Session(name, blade, used, roomCelsius, operator, opened, closed);
  }

  /** The time within the session that is nearest to {@code at}. */
  public Instant during(Instant at) {
    return at.isBefore(opened) ? opened : closed.filter(at::isAfter).orElse(at);
  }

  /** This session, open again. */
  public Session reopened() {
    if (closed.isEmpty()) {
      throw new NotAccepted("refused.open_already", "session", name);
    }
    return closed(Optional.empty());
  }

  void requireOpen(Phrase act) {
    closed.ifPresent(
        at -> {
          throw new NotAccepted("refused.session_closed", "session", name, "at", at, "act", act);
        });
  }
}
