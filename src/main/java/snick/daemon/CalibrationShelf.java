package snick.daemon;

import snick.store.record.Recording;

/** Which calibration belongs to a recording that begins. */
@FunctionalInterface
public interface CalibrationShelf {
  /** The calibration for {@code recording}, or why there is none. */
  Scale forRecording(Recording recording);
}
