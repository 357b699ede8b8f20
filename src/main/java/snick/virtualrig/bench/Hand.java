package snick.virtualrig.bench;

import java.util.Arrays;
import java.util.Random;
import snick.virtualrig.settings.HandSettings;
import snick.virtualrig.settings.HandSteadiness;

/** A hand that moves the edge: tremor, curve, pauses and slips are what its settings say. */
final class Hand {
  /** Pauses lie in the part of the way in which the edge presses and does not yet cut. */
  private static final double FIRST_PAUSE = 0.1;

  private static final double LAST_PAUSE = 0.9;

  private final HandSteadiness steadiness;
  private final Tremor tremor;
  private final StickSlip slips;
  private final double stiffnessGramForcePerMillimetre;
  private final double wayToPeakMillimetres;
  private final double[] pausesAtMillimetres;
  private double speedMillimetresPerSecond;
  private double wayMillimetres;
  private int nextPause;
  private double pauseLeftSeconds;

  /**
   * The hand starts at rest, the gap away from the filament.
   *
   * @param peakGramForce force at which it expects the break, or turns back
   */
  Hand(
      HandSettings settings,
      double stiffnessGramForcePerMillimetre,
      double rateGramForcePerSecond,
      double peakGramForce,
      Random random) {
    this.steadiness = settings.steadiness();
    this.tremor = new Tremor(settings, random);
    this.slips = new StickSlip(steadiness, random);
    this.stiffnessGramForcePerMillimetre = stiffnessGramForcePerMillimetre;
    this.speedMillimetresPerSecond = rateGramForcePerSecond / stiffnessGramForcePerMillimetre;
    this.wayToPeakMillimetres = peakGramForce / stiffnessGramForcePerMillimetre;
    this.wayMillimetres = -settings.gapMillimetres();
    this.pausesAtMillimetres = new double[steadiness.pauses()];
    Arrays.setAll(
        pausesAtMillimetres,
        i ->
            wayToPeakMillimetres
                * (FIRST_PAUSE + (LAST_PAUSE - FIRST_PAUSE) * random.nextDouble()));
    Arrays.sort(pausesAtMillimetres);
  }

  /** Where the edge stands after a step, mm beyond the untouched filament. */
  double advanceMillimetres(double stepSeconds) {
    wayMillimetres += movedMillimetres(stepSeconds);
    double unsteady = tremor.advance(stepSeconds) + slips.advance(stepSeconds);
    return wayMillimetres + unsteady / stiffnessGramForcePerMillimetre;
  }

  private double movedMillimetres(double stepSeconds) {
    if (nextPause < pausesAtMillimetres.length
        && wayMillimetres >= pausesAtMillimetres[nextPause]) {
      nextPause++;
      pauseLeftSeconds += steadiness.pauseSeconds();
    }
    if (pauseLeftSeconds > 0) {
      pauseLeftSeconds -= stepSeconds;
      return 0;
    }
    return speedMillimetresPerSecond * speedShare() * stepSeconds;
  }

  /** The square of the speed changes evenly along the way, so the speed changes evenly in time. */
  private double speedShare() {
    double part = Math.max(0, Math.min(1, wayMillimetres / wayToPeakMillimetres));
    double whole = 1 + steadiness.curve();
    return steadiness.curve() == 0 ? 1 : Math.sqrt(1 + (whole * whole - 1) * part);
  }

  /** Where the edge stands without tremor, mm beyond the untouched filament. */
  double wayMillimetres() {
    return wayMillimetres;
  }

  void turnBack() {
    speedMillimetresPerSecond = -speedMillimetresPerSecond;
  }
}
