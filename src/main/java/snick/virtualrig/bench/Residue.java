package snick.virtualrig.bench;

import snick.virtualrig.settings.Parting;

/** The force that a strand or friction keeps after breaks, until it slips out. */
final class Residue {
  private static final double SLIPPING_SECONDS = 0.04;

  private double gramForce;
  private double slipsAtSeconds = Double.NEGATIVE_INFINITY;
  private double beganSeconds;

  /** A break of this force at this time; what was left of a break before is gone. */
  void begin(Parting parting, double breakGramForce, double nowSeconds) {
    gramForce = parting.residualShare() * breakGramForce;
    beganSeconds = nowSeconds;
    slipsAtSeconds = nowSeconds + parting.residualSeconds();
  }

  /** Whether it neither is there nor will be. */
  boolean goneAt(double seconds) {
    return gramForce == 0 || seconds >= slipsAtSeconds + SLIPPING_SECONDS;
  }

  /** Mean from {@code from} to {@code to}, s, gf. */
  double meanGramForce(double from, double to) {
    return goneAt(from) ? 0 : gramForce * (areaUntil(to) - areaUntil(from)) / (to - from);
  }

  /** Time integral of the share that is there, s. */
  private double areaUntil(double seconds) {
    double whole = Math.max(0, Math.min(seconds, slipsAtSeconds) - beganSeconds);
    double slipped = Math.max(0, Math.min(1, (seconds - slipsAtSeconds) / SLIPPING_SECONDS));
    return whole + SLIPPING_SECONDS * slipped * (1 - slipped / 2);
  }
}
