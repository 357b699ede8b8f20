package snick.virtualrig.bench;

/**
 * A hanging mass is put on, changed or taken off: the load swings and settles. Decay and swing are
 * turned on from step to step while the steps are alike.
 */
final class SwingingMass implements LoadCourse {
  private static final double DECAY_SECONDS = 0.12;
  private static final double SWING_HERTZ = 6;
  private static final double SWING_SHARE = 0.2;
  private static final double LENGTH_SECONDS = 2.4;

  private final double fromGramForce;
  private final double toGramForce;
  private double seconds;
  private double stepSeconds;
  private double left;
  private double swing;
  private double keptEachStep;
  private double cosineEachStep;
  private double sineEachStep;
  private double quarterLater;

  SwingingMass(double fromGramForce, double toGramForce) {
    this.fromGramForce = fromGramForce;
    this.toGramForce = toGramForce;
  }

  @Override
  public double advance(double stepSeconds, Witness witness) {
    if (stepSeconds == this.stepSeconds) {
      turn();
    } else {
      begin(stepSeconds);
    }
    seconds += stepSeconds;
    return toGramForce + (fromGramForce - toGramForce) * left * (1 - SWING_SHARE * swing);
  }

  /** Decay and swing in the middle of a step, and what each further step makes of them. */
  private void begin(double stepSeconds) {
    this.stepSeconds = stepSeconds;
    double middle = seconds + stepSeconds / 2;
    double angle = 2 * StrictMath.PI * SWING_HERTZ * middle;
    double angleEachStep = 2 * StrictMath.PI * SWING_HERTZ * stepSeconds;
    left = StrictMath.exp(-middle / DECAY_SECONDS);
    swing = StrictMath.sin(angle);
    quarterLater = StrictMath.cos(angle);
    keptEachStep = StrictMath.exp(-stepSeconds / DECAY_SECONDS);
    cosineEachStep = StrictMath.cos(angleEachStep);
    sineEachStep = StrictMath.sin(angleEachStep);
  }

  private void turn() {
    double before = swing;
    left *= keptEachStep;
    swing = before * cosineEachStep + quarterLater * sineEachStep;
    quarterLater = quarterLater * cosineEachStep - before * sineEachStep;
  }

  @Override
  public boolean over() {
    return seconds >= LENGTH_SECONDS;
  }
}
