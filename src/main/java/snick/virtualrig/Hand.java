package snick.virtualrig;

/** A hand that moves the edge at an even speed, but for its tremor. */
final class Hand {
  private final Tremor tremor;
  private final double stiffnessGramForcePerMillimetre;
  private double speedMillimetresPerSecond;
  private double wayMillimetres;

  /** The hand starts at rest, the gap away from the filament. */
  Hand(
      HandSettings settings,
      Tremor tremor,
      double stiffnessGramForcePerMillimetre,
      double rateGramForcePerSecond) {
    this.tremor = tremor;
    this.stiffnessGramForcePerMillimetre = stiffnessGramForcePerMillimetre;
    this.speedMillimetresPerSecond = rateGramForcePerSecond / stiffnessGramForcePerMillimetre;
    this.wayMillimetres = -settings.gapMillimetres();
  }

  /** Where the edge stands after a step, mm beyond the untouched filament. */
  double advanceMillimetres(double stepSeconds) {
    wayMillimetres += speedMillimetresPerSecond * stepSeconds;
    return wayMillimetres + tremor.advance(stepSeconds) / stiffnessGramForcePerMillimetre;
  }

  /** Where the edge stands without tremor, mm beyond the untouched filament. */
  double wayMillimetres() {
    return wayMillimetres;
  }

  void turnBack() {
    speedMillimetresPerSecond = -speedMillimetresPerSecond;
  }
}
