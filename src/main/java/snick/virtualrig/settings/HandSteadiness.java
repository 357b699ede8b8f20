package snick.virtualrig.settings;

/**
 * How evenly a hand presses, but for its tremor.
 *
 * @param curve change of speed from the first touch to the expected break, as a share of the speed
 *     at the touch: 1 doubles it, −0.8 to 4
 * @param pauses times that the hand stops in a loading, 0 to 10
 * @param pauseSeconds length of each, s, 0 to 2
 * @param slipGramForce force that a slip loses at once after the edge stuck, gf, 0 to 50
 * @param slipsPerSecond mean number of slips, 0.1 to 100
 */
public record HandSteadiness(
    double curve, int pauses, double pauseSeconds, double slipGramForce, double slipsPerSecond) {
  /** An even speed without stops or slips. */
  public static final HandSteadiness EVEN = new HandSteadiness(0, 0, 0, 0, 1);

  public HandSteadiness {
    SettingRange.check("curve of the loading", curve, -0.8, 4);
    SettingRange.check("pauses", pauses, 0, 10);
    SettingRange.check("pause, s,", pauseSeconds, 0, 2);
    SettingRange.check("slip, gf,", slipGramForce, 0, 50);
    SettingRange.check("slips a second", slipsPerSecond, 0.1, 100);
  }
}
