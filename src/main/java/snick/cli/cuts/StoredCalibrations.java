package snick.cli.cuts;

import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import snick.daemon.CalibrationShelf;
import snick.daemon.CalibrationWarnings;
import snick.daemon.Scale;
import snick.force.Calibration;
import snick.force.RigSetting;
import snick.store.Recording;
import snick.store.StoreReader;

/** Where a recording's calibration is found: typed in, else the newest one stored for its rig. */
public final class StoredCalibrations implements CalibrationShelf {
  private final Path dataDirectory;
  private final CalibrationChoice typedIn;

  /** What was {@code typedIn} goes before what is stored in {@code dataDirectory}. */
  public StoredCalibrations(Path dataDirectory, CalibrationChoice typedIn) {
    this.dataDirectory = dataDirectory;
    this.typedIn = typedIn;
  }

  @Override
  public Scale forRecording(Recording recording) {
    return typedIn.given(recording.decimals()).map(Scale::by).orElseGet(() -> stored(recording));
  }

  private Scale stored(Recording recording) {
    try (StoreReader store = StoreReader.open(dataDirectory)) {
      return store
          .currentCalibration(recording.deviceId())
          .map(stored -> ifItFits(stored.calibration(), recording, store))
          .orElseGet(() -> Scale.none(List.of(missing(recording))));
    }
  }

  private static String missing(Recording recording) {
    return "no calibration for rig "
        + recording.deviceId()
        + ": its cuts are stored in counts; make one: snick calibrate, or type one in:"
        + " --counts-per-gf N";
  }

  private static Scale ifItFits(Calibration calibration, Recording recording, StoreReader store) {
    Scale scale = scale(calibration, recording);
    return scale.calibration().isEmpty() || calibration.boundTo().isEmpty()
        ? scale
        : scale.warning(
            CalibrationWarnings.of(
                calibration,
                store.verifications(recording.deviceId()),
                Clock.systemUTC().instant()));
  }

  /** {@code calibration} for {@code recording}, or why it is a stranger to it. */
  static Scale scale(Calibration calibration, Recording recording) {
    if (calibration.boundTo().isEmpty()) {
      return Scale.by(calibration);
    }
    RigSetting made = calibration.boundTo().get();
    RigSetting now =
        new RigSetting(
            recording.deviceId(),
            recording.gain().orElse(made.gain()),
            recording.nominalRate().orElse(made.nominalRate()),
            made.polarity());
    return calibration.fits(now) instanceof Calibration.Fit.Stranger stranger
        ? Scale.none(stranger.reasons())
        : Scale.by(calibration);
  }
}
