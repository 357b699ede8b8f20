package snick.cut.response;

/**
 * A free oscillation of the rig after a fall, as its samples show it.
 *
 * @param hertz its frequency, Hz, above 0
 * @param hertzUncertainty standard uncertainty of that, Hz
 * @param dampingRatio damping ratio, above 0 and below 1
 * @param dampingLogUncertainty standard uncertainty of the natural logarithm of that
 * @param cosine share of a step of force that swings so t seconds after its equal-area instant:
 *     e^(−t/τ)·(cosine·cos ωt + sine·sin ωt); 0 if not known, as after a tap
 * @param sine see there
 */
public record Ring(
    double hertz,
    double hertzUncertainty,
    double dampingRatio,
    double dampingLogUncertainty,
    double cosine,
    double sine) {
  public Ring {
    if (!(hertz > 0 && hertz < Double.POSITIVE_INFINITY)
        || !(hertzUncertainty >= 0)
        || !(dampingRatio > 0 && dampingRatio < 1)
        || !(dampingLogUncertainty >= 0)
        || !Double.isFinite(cosine + sine)) {
      throw new IllegalArgumentException(
          "ring of " + hertz + " Hz, damping ratio " + dampingRatio + " is none");
    }
  }

  /** Time in which the oscillation falls to 1/e, s. */
  public double decaySeconds() {
    return Math.sqrt(1 - dampingRatio * dampingRatio) / (2 * Math.PI * hertz * dampingRatio);
  }

  /** Time from one swing to the next to the same side, s. */
  public double periodSeconds() {
    return 1 / hertz;
  }

  /**
   * Time by which the fixture, a mass on a damped spring, follows a steady rise late, s: twice the
   * damping ratio over the undamped angular frequency.
   */
  public double lagSeconds() {
    return 2 * dampingRatio * Math.sqrt(1 - dampingRatio * dampingRatio) / (2 * Math.PI * hertz);
  }

  private double omega() {
    return 2 * Math.PI * hertz;
  }

  /** Share of a step that swings at a time since its equal-area instant, s. */
  double at(double seconds) {
    double turn = omega() * seconds;
    return StrictMath.exp(-seconds / decaySeconds())
        * (cosine * StrictMath.cos(turn) + sine * StrictMath.sin(turn));
  }

  /** Integral of {@link #at} from a time on, s. */
  double areaFrom(double seconds) {
    double beta = 1 / decaySeconds();
    double turn = omega() * seconds;
    double c = StrictMath.cos(turn);
    double s = StrictMath.sin(turn);
    return StrictMath.exp(-seconds * beta)
        * (cosine * (beta * c - omega() * s) + sine * (beta * s + omega() * c))
        / (beta * beta + omega() * omega());
  }

  /** The same swing counted from an instant that lies later, s. */
  Ring countedFrom(double laterSeconds) {
    double left = StrictMath.exp(-laterSeconds / decaySeconds());
    double c = StrictMath.cos(omega() * laterSeconds);
    double s = StrictMath.sin(omega() * laterSeconds);
    return new Ring(
        hertz,
        hertzUncertainty,
        dampingRatio,
        dampingLogUncertainty,
        left * (cosine * c + sine * s),
        left * (sine * c - cosine * s));
  }
}
