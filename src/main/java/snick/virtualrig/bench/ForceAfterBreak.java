package snick.virtualrig.bench;

import snick.virtualrig.settings.FixtureSettings;
import snick.virtualrig.settings.Parting;

/**
 * Force at the filament after the break: it lets go as its parting law says, wholly or first to a
 * shoulder.
 */
public final class ForceAfterBreak {
  private static final double SHOULDER_SECONDS = 0.12;
  private static final double SHOULDER_SHARE = 0.45;
  private static final int POINTS = 8;

  private final double breakGramForce;
  private final double shoulderRise;
  private final double shoulderSeconds;
  private final Parting parting;
  private final double partingSeconds;

  private ForceAfterBreak(
      FixtureSettings fixture, double breakGramForce, double shoulderRise, double shoulderSeconds) {
    this.breakGramForce = breakGramForce;
    this.shoulderRise = shoulderRise;
    this.shoulderSeconds = shoulderSeconds;
    this.parting = fixture.parting();
    this.partingSeconds = parting.lengthSeconds();
  }

  /** From this force to nothing. */
  public static ForceAfterBreak of(FixtureSettings fixture, double breakGramForce) {
    return new ForceAfterBreak(fixture, breakGramForce, 0, 0);
  }

  /** A remaining strand carries on with its share of the loading rate before it parts as well. */
  static ForceAfterBreak inTwoSteps(
      FixtureSettings fixture, double breakGramForce, double rateGramForcePerSecond) {
    return new ForceAfterBreak(
        fixture, breakGramForce, SHOULDER_SHARE * rateGramForcePerSecond, SHOULDER_SECONDS);
  }

  /** Mean force from {@code from} to {@code to}, both in s after the break, gf. */
  public double meanGramForce(double from, double to) {
    double sum = 0;
    for (int i = 0; i < POINTS; i++) {
      sum += atGramForce(from + (to - from) * (i + 0.5) / POINTS);
    }
    return sum / POINTS;
  }

  /** Whether nothing falls any more {@code seconds} after the break. */
  boolean over(double seconds) {
    double parted = shoulderSeconds > 0 ? 2 * partingSeconds + shoulderSeconds : partingSeconds;
    return seconds >= parted;
  }

  private double atGramForce(double seconds) {
    return shoulderSeconds > 0 ? withShoulder(seconds) : slope(seconds, breakGramForce, 0);
  }

  private double withShoulder(double seconds) {
    double shoulder = SHOULDER_SHARE * breakGramForce;
    if (seconds < partingSeconds) {
      return slope(seconds, breakGramForce, shoulder);
    }
    double onShoulder = seconds - partingSeconds;
    double last = shoulder + shoulderRise * shoulderSeconds;
    return onShoulder < shoulderSeconds
        ? shoulder + shoulderRise * onShoulder
        : slope(onShoulder - shoulderSeconds, last, 0);
  }

  private double slope(double seconds, double from, double to) {
    return to + (from - to) * parting.shareLeft(seconds);
  }
}
