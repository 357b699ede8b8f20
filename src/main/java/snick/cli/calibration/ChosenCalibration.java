package snick.cli.calibration;

import java.util.List;
import snick.cli.terminal.Refusal;
import snick.store.StoreReader;
import snick.store.record.StoredCalibration;

/** The stored calibration that a command names by the beginning of its id. */
public final class ChosenCalibration {
  private ChosenCalibration() {}

  /**
   * The newest stored calibration whose id begins with {@code beginning}.
   *
   * @throws Refusal if there is none, or if a beginning that is not empty fits several
   */
  public static StoredCalibration of(StoreReader store, String beginning) {
    List<StoredCalibration> fitting =
        store.calibrations().stream()
            .filter(c -> c.calibration().id().startsWith(beginning))
            .toList();
    if (fitting.isEmpty()) {
      throw Refusal.badInput(
          beginning.isEmpty()
              ? "no calibrations yet; make one: snick calibrate PORT, or try --virtual"
              : "no calibration " + beginning + "; see which there are: snick calibrate list");
    }
    if (fitting.size() > 1 && !beginning.isEmpty()) {
      throw Refusal.badInput(beginning + " begins " + fitting.size() + " ids; give more of it");
    }
    return fitting.get(fitting.size() - 1);
  }
}
