package snick.virtualrig.settings;

import java.util.Objects;

/**
 * All that makes a virtual rig. Immutable.
 *
 * @param hand the operator
 * @param fixture filament, fixture and cell
 * @param disturbance noise and its kin
 * @param converter amplifier and converter
 * @param device microcontroller and firmware
 */
public record RigSettings(
    HandSettings hand,
    FixtureSettings fixture,
    Disturbance disturbance,
    ConverterSettings converter,
    DeviceSettings device) {
  /** An invented rig: 80 samples per second, 437.25 counts per gf, binary frames. */
  public static final RigSettings USUAL =
      new RigSettings(
          HandSettings.CALM,
          FixtureSettings.BENCH,
          Disturbance.ORDINARY,
          ConverterSettings.USUAL,
          DeviceSettings.USUAL);

  public RigSettings {
    Objects.requireNonNull(hand);
    Objects.requireNonNull(fixture);
    Objects.requireNonNull(disturbance);
    Objects.requireNonNull(converter);
    Objects.requireNonNull(device);
  }

  /** The same rig in another hand. */
  public RigSettings with(HandSettings other) {
    return new RigSettings(other, fixture, disturbance, converter, device);
  }

  /** The same rig with another fixture. */
  public RigSettings with(FixtureSettings other) {
    return new RigSettings(hand, other, disturbance, converter, device);
  }

  /** The same rig, disturbed in another way. */
  public RigSettings with(Disturbance other) {
    return new RigSettings(hand, fixture, other, converter, device);
  }

  /** The same rig with another converter. */
  public RigSettings with(ConverterSettings other) {
    return new RigSettings(hand, fixture, disturbance, other, device);
  }

  /** The same rig with another device. */
  public RigSettings with(DeviceSettings other) {
    return new RigSettings(hand, fixture, disturbance, converter, other);
  }
}
