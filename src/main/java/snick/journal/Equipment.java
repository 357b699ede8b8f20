package snick.journal;

import java.util.Optional;
import snick.journal.name.Field;

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
