package snick.cut;

import java.util.Random;
import java.util.function.DoubleUnaryOperator;

/**
 * One loading of the filament as a force over time, gf and s: a ramp with hand tremor that parts
 * the filament at the first instant at which the force reaches its strength.
 */
final class Press implements DoubleUnaryOperator {
  private static final double TICK = 1e-4;

  /** No hand raises the force so far in {@link #FAR_TICKS}. */
  private static final double FAR_GF = 10;

  private static final int FAR_TICKS = 10;

  final double onset;
  final double rate;
  final double strength;
  final double breakTime;
  private final DoubleUnaryOperator course;
  private final DoubleUnaryOperator afterwards;

  private Press(
      double onset,
      double rate,
      double strength,
      double seconds,
      DoubleUnaryOperator course,
      DoubleUnaryOperator afterwards) {
    this.onset = onset;
    this.rate = rate;
    this.strength = strength;
    this.course = course;
    this.afterwards = afterwards;
    this.breakTime = onset + seconds;
  }

  /** A straight ramp with this tremor, which fades in over the first tenth of a second. */
  static Press ramp(double onset, double rate, double strength, DoubleUnaryOperator tremor) {
    return shaped(onset, rate, strength, t -> rate * t, tremor, t -> 0);
  }

  /**
   * A loading of any course.
   *
   * @param course force without tremor, gf, over seconds since onset
   * @param afterwards force after the break as a fraction of the strength, over seconds since it
   */
  static Press shaped(
      double onset,
      double rate,
      double strength,
      DoubleUnaryOperator course,
      DoubleUnaryOperator tremor,
      DoubleUnaryOperator afterwards) {
    DoubleUnaryOperator whole =
        t -> Math.max(0, course.applyAsDouble(t) + Math.min(1, t / 0.1) * tremor.applyAsDouble(t));
    double seconds = firstReach(whole, strength, 5 * strength / rate + 5);
    return new Press(onset, rate, strength, seconds, whole, afterwards);
  }

  /** A straight ramp with this tremor that parts at a fixed instant, whatever the force there. */
  static Press timed(double onset, double rate, double seconds, DoubleUnaryOperator tremor) {
    DoubleUnaryOperator whole =
        t -> Math.max(0, rate * t + Math.min(1, t / 0.1) * tremor.applyAsDouble(t));
    return new Press(onset, rate, whole.applyAsDouble(seconds), seconds, whole, t -> 0);
  }

  /** To a tenth of a millisecond; where the strength is far, ten of those at a time. */
  private static double firstReach(DoubleUnaryOperator course, double strength, double limit) {
    double before = course.applyAsDouble(0);
    int tick = 0;
    while (tick * TICK < limit) {
      int ticks = strength - before > FAR_GF ? FAR_TICKS : 1;
      double now = course.applyAsDouble((tick + ticks) * TICK);
      if (now >= strength && ticks > 1) {
        ticks = 1;
        now = course.applyAsDouble((tick + 1) * TICK);
      }
      tick += ticks;
      if (now >= strength) {
        return TICK * (tick - (now - strength) / (now - before));
      }
      before = now;
    }
    throw new IllegalArgumentException("the loading never reaches " + strength + " gf");
  }

  @Override
  public double applyAsDouble(double t) {
    if (t < onset) {
      return 0;
    }
    return t < breakTime
        ? course.applyAsDouble(t - onset)
        : strength * afterwards.applyAsDouble(t - breakTime);
  }

  /** No tremor. */
  static DoubleUnaryOperator steady() {
    return t -> 0;
  }

  /** One sinusoid between 4 Hz and 12 Hz of this amplitude, gf. */
  static DoubleUnaryOperator sinusoid(double amplitude, Random random) {
    double omega = 2 * Math.PI * (4 + 8 * random.nextDouble());
    double phase = 2 * Math.PI * random.nextDouble();
    return t -> amplitude * Math.sin(omega * t + phase);
  }

  /** Narrow-band random tremor of this rms, gf: eight sinusoids within 1.5 Hz of a centre. */
  static DoubleUnaryOperator narrowBand(double rms, Random random) {
    int n = 8;
    double centre = 5.5 + 5 * random.nextDouble();
    double[] omega = new double[n];
    double[] phase = new double[n];
    double[] amplitude = new double[n];
    for (int i = 0; i < n; i++) {
      omega[i] = 2 * Math.PI * (centre + 3 * (random.nextDouble() - 0.5));
      double sine = random.nextGaussian() * rms / Math.sqrt(n);
      double cosine = random.nextGaussian() * rms / Math.sqrt(n);
      phase[i] = Math.atan2(cosine, sine);
      amplitude[i] = Math.hypot(sine, cosine);
    }
    return t -> {
      double sum = 0;
      for (int i = 0; i < n; i++) {
        sum += amplitude[i] * Math.sin(omega[i] * t + phase[i]);
      }
      return sum;
    };
  }

  /** Damped ringing after the break: fraction of the strength, Hz, share of critical damping. */
  static DoubleUnaryOperator ringing(double fraction, double hertz, double damping) {
    double omega = 2 * Math.PI * hertz;
    return t -> -fraction * Math.exp(-damping * omega * t) * Math.sin(omega * t);
  }
}
