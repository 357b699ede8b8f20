package snick.virtualrig.settings;

import java.util.Objects;
import java.util.Optional;
import snick.frame.message.SampleBatch;

/**
 * The microcontroller and its firmware.
 *
 * @param deviceId 64-bit identity
 * @param firmware name and version, 1 to 32 characters of ASCII
 * @param startMicros reading of its 32-bit microsecond counter at power-on, unsigned
 * @param clockErrorPpm how much its clock runs fast, 10⁻⁶
 * @param batchSamples most samples in one frame, 1 to {@link SampleBatch#MAX_SAMPLES}; fewer where
 *     they would wait longer than 25 ms
 * @param text form of text lines, if the device is a simple sketch instead of a speaker of frames
 */
public record DeviceSettings(
    long deviceId,
    String firmware,
    long startMicros,
    double clockErrorPpm,
    int batchSamples,
    Optional<TextForm> text) {
  private static final int LONGEST_NAME = 32;

  /** An invented device, its clock 20 ppm fast. */
  public static final DeviceSettings USUAL =
      new DeviceSettings(0x51A0_0000_0000_0001L, "virtualrig 1", 0, 20, 64, Optional.empty());

  public DeviceSettings {
    Objects.requireNonNull(text);
    if (!firmware.matches("[ -~]{1," + LONGEST_NAME + "}")) {
      throw new IllegalArgumentException(
          "firmware name of " + firmware.length() + " characters, 1 to 32 of ASCII allowed");
    }
    SettingRange.check("start of the counter, µs,", (double) startMicros, 0, (1L << 32) - 1.0);
    SettingRange.check("clock error, ppm,", clockErrorPpm, -100_000, 100_000);
    SettingRange.check("samples in a frame", batchSamples, 1, SampleBatch.MAX_SAMPLES);
  }

  /** A simple sketch that prints lines. */
  public DeviceSettings withText(TextForm form) {
    return new DeviceSettings(
        deviceId, firmware, startMicros, clockErrorPpm, batchSamples, Optional.of(form));
  }
}
