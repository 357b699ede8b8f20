package snick.virtualrig;

/** A hanging mass is put on, changed or taken off: the load swings and settles. */
final class Settling implements Motion {
  private static final double DECAY_SECONDS = 0.12;
  private static final double SWING_HERTZ = 6;
  private static final double SWING_SHARE = 0.2;
  private static final double LENGTH_SECONDS = 2.4;

  private final double fromGramForce;
  private final double toGramForce;
  private double seconds;

  Settling(double fromGramForce, double toGramForce) {
    this.fromGramForce = fromGramForce;
    this.toGramForce = toGramForce;
  }

  @Override
  public double advance(double stepSeconds, Witness witness) {
    double middle = seconds + stepSeconds / 2;
    seconds += stepSeconds;
    double left = StrictMath.exp(-middle / DECAY_SECONDS);
    double swing = SWING_SHARE * StrictMath.sin(2 * StrictMath.PI * SWING_HERTZ * middle);
    return toGramForce + (fromGramForce - toGramForce) * left * (1 - swing);
  }

  @Override
  public boolean over() {
    return seconds >= LENGTH_SECONDS;
  }
}
