package snick.cli;

import java.util.Optional;
import snick.daemon.CalibrationShelf;
import snick.daemon.Scale;
import snick.force.Calibration;

/** Where a recording's calibration is found. */
final class StoredCalibrations {
  private StoredCalibrations() {}

  /** The typed-in calibration for every recording. */
  static CalibrationShelf orTypedIn(Optional<Calibration> typedIn) {
    return recording ->
        typedIn
            .map(Scale::by)
            .orElseGet(() -> Scale.none("no calibration for rig " + recording.deviceId()));
  }
}
