package snick.virtualrig.bench;

/** A finger flicks the fixture: half a sine wave of force on what stands on the cell. */
final class Flicking implements LoadCourse {
  private static final double LENGTH_SECONDS = 0.004;

  private final double standingGramForce;
  private final double peakGramForce;
  private double seconds;

  Flicking(double standingGramForce, double peakGramForce) {
    this.standingGramForce = standingGramForce;
    this.peakGramForce = peakGramForce;
  }

  @Override
  public double advance(double stepSeconds, Witness witness) {
    double before = impulseUntil(seconds);
    seconds += stepSeconds;
    return standingGramForce + (impulseUntil(seconds) - before) / stepSeconds;
  }

  private double impulseUntil(double time) {
    double part = Math.min(1, time / LENGTH_SECONDS);
    return peakGramForce
        * LENGTH_SECONDS
        / StrictMath.PI
        * (1 - StrictMath.cos(StrictMath.PI * part));
  }

  @Override
  public boolean over() {
    return seconds >= LENGTH_SECONDS;
  }
}
