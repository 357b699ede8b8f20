package snick.virtualrig.settings;

/**
 * Cell and fixture as a mass on a damped spring: what the cell feels follows the force at the
 * filament as a second-order system of unit gain at rest.
 *
 * @param resonanceHertz undamped natural frequency, Hz, 1 to 2000
 * @param dampingRatio damping ratio while nothing touches the filament, 0.001 to 0.95
 * @param heldDampingRatio damping ratio while the edge rests on the filament, 0.001 to 0.95: a hand
 *     damps
 */
public record Mechanics(double resonanceHertz, double dampingRatio, double heldDampingRatio) {
  /** Most that a ratio may be: more heavily damped fixtures do not ring and are not modelled. */
  public static final double MOST_DAMPED = 0.95;

  /** A load cell with some hundred grams on it: rings visibly. Invented, of a plausible size. */
  public static final Mechanics RINGING = new Mechanics(45, 0.03, 0.06);

  public Mechanics {
    SettingRange.check("resonance, Hz,", resonanceHertz, 1, 2000);
    SettingRange.check("damping ratio", dampingRatio, 1e-3, MOST_DAMPED);
    SettingRange.check("damping ratio while the hand holds", heldDampingRatio, 1e-3, MOST_DAMPED);
  }

  /** The same damping whether the hand holds or not. */
  public static Mechanics of(double resonanceHertz, double dampingRatio) {
    return new Mechanics(resonanceHertz, dampingRatio, dampingRatio);
  }
}
