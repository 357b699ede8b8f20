package snick.virtualrig.bench;

import java.util.OptionalDouble;
import snick.virtualrig.script.Action;
import snick.virtualrig.settings.Filament;

/** The edge is pressed on the filament and lifted again. */
final class Releasing implements LoadCourse {
  private final Action.Release release;
  private final Hand hand;
  private final Filament filament;
  private final double turnMillimetres;
  private final double startMillimetres;
  private double forceGramForce;
  private double largestGramForce;
  private double sinceLargestSeconds;
  private boolean back;
  private boolean over;

  Releasing(Action.Release release, Hand hand, Filament filament, double stiffness) {
    this.release = release;
    this.hand = hand;
    this.filament = filament;
    this.turnMillimetres = release.peak().gramForce() / stiffness;
    this.startMillimetres = hand.wayMillimetres();
  }

  @Override
  public double advance(double stepSeconds, Witness witness) {
    double before = forceGramForce;
    forceGramForce = filament.forceGramForce(hand.advanceMillimetres(stepSeconds), stepSeconds);
    follow(stepSeconds);
    turn();
    if (over) {
      witness.ended(
          TrueCut.Kind.RELEASED,
          largestGramForce,
          stepSeconds - sinceLargestSeconds,
          release.rateGramForcePerSecond(),
          OptionalDouble.empty());
    }
    return (before + forceGramForce) / 2;
  }

  private void follow(double stepSeconds) {
    sinceLargestSeconds += stepSeconds;
    if (forceGramForce > largestGramForce) {
      largestGramForce = forceGramForce;
      sinceLargestSeconds = 0;
    }
  }

  private void turn() {
    if (!back && hand.wayMillimetres() >= turnMillimetres) {
      back = true;
      hand.turnBack();
    }
    over = back && hand.wayMillimetres() <= startMillimetres;
  }

  @Override
  public boolean handHolds() {
    return forceGramForce > 0;
  }

  @Override
  public boolean over() {
    return over;
  }
}
