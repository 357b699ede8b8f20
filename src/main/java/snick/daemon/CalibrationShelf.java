package snick.daemon;

import java.util.Optional;
import snick.force.Calibration;
import snick.store.Recording;

/** Which calibration belongs to a recording that begins. */
@FunctionalInterface
public interface CalibrationShelf {
  /** The calibration for {@code recording}; empty if there is none that fits it. */
  Optional<Calibration> forRecording(Recording recording);
}
