package snick.cli.cuts;

import java.time.Clock;
import java.util.List;
import java.util.Optional;
import snick.cli.option.DataDirectory;
import snick.daemon.CalibrationShelf;
import snick.daemon.CalibrationWarnings;
import snick.daemon.Scale;
import snick.force.budget.Calibration;
import snick.force.reading.RigSetting;
import snick.frame.text.Columns;
import snick.phrase.Phrase;
import snick.store.StoreReader;
import snick.store.record.Recording;

/**
 * Where a recording's calibration is found: typed in, else the newest one stored for its rig.
 *
 * @param data directory of the store
 * @param typedIn goes before what is stored
 */
public record StoredCalibrations(DataDirectory data, CalibrationChoice typedIn)
    implements CalibrationShelf {
  @Override
  public Scale forRecording(Recording recording) {
    return typedIn.given(recording.decimals()).map(Scale::by).orElseGet(() -> stored(recording));
  }

  private Scale stored(Recording recording) {
    try (StoreReader store = StoreReader.open(data.path())) {
      return store
          .currentCalibration(recording.deviceId())
          .map(stored -> ifItFits(stored.calibration(), recording, store))
          .or(() -> sketchScale(recording))
          .orElseGet(() -> none(recording).remedied(Phrase.of("scale.make_one")));
    }
  }

  private Optional<Scale> sketchScale(Recording recording) {
    return SketchScale.calibration(Columns.forceOf(recording.deviceId()), recording.decimals())
        .map(scale -> Scale.by(scale).warning(List.of(SketchScale.WARNING)));
  }

  /** What is so of a rig whose calibration is not there. */
  static Scale none(Recording recording) {
    return Scale.none(List.of(Phrase.of("scale.none_for_rig", "rig", recording.deviceId())));
  }

  private static Phrase strangers(Calibration calibration, Recording recording) {
    return Phrase.of("warning.of_no_rig", "rig", recording.deviceId(), "id", calibration.id());
  }

  private Scale ifItFits(Calibration calibration, Recording recording, StoreReader store) {
    Scale scale = scale(calibration, recording);
    if (calibration.boundTo().isEmpty()) {
      return scale.warning(List.of(strangers(calibration, recording)));
    }
    return scale.calibration().isEmpty()
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
