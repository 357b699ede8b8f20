package snick.exchange;

import java.util.List;
import snick.force.Calibration;

/**
 * What a package holds beside its cuts.
 *
 * @param recordings recordings, numbered by place from 1
 * @param calibrations calibrations, numbered by place from 1
 * @param journal the journal
 */
record PackageContents(
    List<RigJson.Item> recordings,
    List<CalibrationJson.Item> calibrations,
    JournalJson.Journal journal) {
  Calibration calibration(int number) {
    return calibrations.get(number - 1).calibration();
  }
}
