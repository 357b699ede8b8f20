package snick.virtualrig.bench;

import java.util.Optional;
import snick.virtualrig.script.Action;
import snick.virtualrig.settings.Filament;
import snick.virtualrig.settings.FixtureSettings;

/** The edge is pressed on the filament until it parts. */
final class Cutting implements LoadCourse {
  private final FixtureSettings fixture;
  private final Action.Cut cut;
  private final Hand hand;
  private final Filament filament;
  private Optional<ForceAfterBreak> fall = Optional.empty();
  private double forceGramForce;
  private double sinceBreakSeconds;

  Cutting(FixtureSettings fixture, Action.Cut cut, Hand hand, Filament filament) {
    this.fixture = fixture;
    this.cut = cut;
    this.hand = hand;
    this.filament = filament;
  }

  @Override
  public double advance(double stepSeconds, Witness witness) {
    return fall.isPresent() ? falling(stepSeconds) : loading(stepSeconds, witness);
  }

  private double loading(double stepSeconds, Witness witness) {
    double before = forceGramForce;
    double after = filament.forceGramForce(hand.advanceMillimetres(stepSeconds), stepSeconds);
    double strength = cut.strength().gramForce();
    if (after < strength) {
      forceGramForce = after;
      return (before + after) / 2;
    }
    double share = (strength - before) / (after - before);
    part(strength, share * stepSeconds, witness);
    double rest = falling((1 - share) * stepSeconds);
    return share * (before + strength) / 2 + (1 - share) * rest;
  }

  private void part(double strength, double secondsIntoStep, Witness witness) {
    double rate = cut.rateGramForcePerSecond();
    fall =
        Optional.of(
            cut.inTwoSteps()
                ? ForceAfterBreak.inTwoSteps(fixture, strength, rate)
                : ForceAfterBreak.of(fixture, strength * (1 - fixture.parting().residualShare())));
    TrueCut.Kind kind = cut.inTwoSteps() ? TrueCut.Kind.PARTED_IN_STEPS : TrueCut.Kind.SEVERED;
    witness.ended(kind, strength, secondsIntoStep, rate, cut.placeMillimetres());
  }

  private double falling(double stepSeconds) {
    double from = sinceBreakSeconds;
    sinceBreakSeconds += stepSeconds;
    return fall.orElseThrow().meanGramForce(from, sinceBreakSeconds);
  }

  @Override
  public boolean handHolds() {
    return forceGramForce > 0 && fall.isEmpty();
  }

  @Override
  public boolean over() {
    return fall.isPresent() && fall.get().over(sinceBreakSeconds);
  }
}
