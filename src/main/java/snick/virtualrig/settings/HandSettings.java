package snick.virtualrig.settings;

import java.util.Objects;

/**
 * The operator's hand. Physiological tremor of an outstretched hand lies about 8 Hz to 12 Hz
 * (common knowledge of physiology, from memory).
 *
 * @param tremorGramForce tremor as felt by the filament, rms, gf, 0 to 50
 * @param tremorLowHertz lower end of the tremor's band, Hz
 * @param tremorHighHertz upper end of the tremor's band, Hz
 * @param gapMillimetres way from rest to the filament, mm, 0 to 100
 * @param steadiness how evenly it presses besides
 */
public record HandSettings(
    double tremorGramForce,
    double tremorLowHertz,
    double tremorHighHertz,
    double gapMillimetres,
    HandSteadiness steadiness) {
  /** A fairly calm hand. */
  public static final HandSettings CALM = new HandSettings(0.4, 8, 12, 0.5, HandSteadiness.EVEN);

  /** No tremor at all, as a motor would press. */
  public static final HandSettings MOTOR = CALM.withTremorGramForce(0);

  public HandSettings {
    SettingRange.check("tremor, gf rms,", tremorGramForce, 0, 50);
    SettingRange.check("lower end of tremor, Hz,", tremorLowHertz, 0.1, 100);
    SettingRange.check("upper end of tremor, Hz,", tremorHighHertz, tremorLowHertz, 100);
    SettingRange.check("gap, mm,", gapMillimetres, 0, 100);
    Objects.requireNonNull(steadiness);
  }

  /** The same hand with another tremor, gf rms. */
  public HandSettings withTremorGramForce(double gramForce) {
    return new HandSettings(gramForce, tremorLowHertz, tremorHighHertz, gapMillimetres, steadiness);
  }

  /** The same hand, pressing in another manner. */
  public HandSettings with(HandSteadiness other) {
    return new HandSettings(
        tremorGramForce, tremorLowHertz, tremorHighHertz, gapMillimetres, other);
  }
}
