package snick.cut;

import java.util.ArrayList;
import java.util.List;

/**
 * Prior of uneven loading: the variance of each member of the basis.
 *
 * @param tremorNoises rms of tremor, spread evenly over 4–12 Hz (the band of physiological hand
 *     tremor, common practice), noises
 * @param wanderNoises rms at 1 Hz of slow changes of speed, whose power falls with the fourth power
 *     of frequency, noises per √Hz
 * @param logPrior logarithm of this prior's own weight, up to a constant
 */
record Unevenness(double tremorNoises, double wanderNoises, double logPrior) {
  /**
   * Geometric steps of about four from far below the noise to 80 noises (12 gf at 0.15 gf of
   * noise), more than a hand that still holds the edge: the true strength is within a factor of two
   * of one.
   */
  private static final double[] TREMORS = {0.3, 1.2, 5, 20, 80};

  /** Steps of about twelve: the slow changes are seen by the early readings, so coarse ones do. */
  private static final double[] WANDERS = {0.3, 4, 50};

  /** So far below the noise that it counts as none, above zero so that factors stay definite. */
  private static final double EVEN = 0.03;

  /** The steps that 1 gf of tremor at 0.15 gf of noise (7 noises) does not reach. */
  private static final double STRONG_TREMOR = 20;

  private static final double STRONG_WANDER = 50;

  /** The band of tremor, 4 to 12 Hz (common practice), with half a hertz on either side. */
  private static final double LOW_HERTZ = 3.5;

  private static final double HIGH_HERTZ = 12.5;

  /**
   * How far the break may lie from where it is looked for, standard deviation in periods: that of a
   * sample spread evenly over a period, 1/√12.
   */
  private static final double SHIFT_PERIODS = 0.3;

  /** Even loading, half of the weight; and strengths in geometric steps. */
  static final List<Unevenness> LADDER = ladder();

  private static List<Unevenness> ladder() {
    List<Unevenness> ladder = new ArrayList<>();
    ladder.add(new Unevenness(EVEN, EVEN, Math.log(TREMORS.length * WANDERS.length)));
    for (double tremor : TREMORS) {
      for (double wander : WANDERS) {
        ladder.add(new Unevenness(tremor, wander, 0));
      }
    }
    return List.copyOf(ladder);
  }

  /**
   * Usual tremor of a pressing hand, rms, as a share of the force: one to a few percent in studies
   * of steady force (from memory); the value is the least at which the error table's briefest ramps
   * with 1 gf of tremor are covered.
   */
  static final double USUAL_TREMOR_SHARE = 0.013;

  /**
   * Index in the ladder of the tremor nearest to the usual at a force, in noises, little wander.
   */
  static int usualAt(double forceNoises) {
    double wanted = Math.log(Math.max(TREMORS[0], USUAL_TREMOR_SHARE * forceNoises));
    int nearest = 0;
    for (int t = 1; t < TREMORS.length; t++) {
      boolean nearer =
          Math.abs(Math.log(TREMORS[t]) - wanted) < Math.abs(Math.log(TREMORS[nearest]) - wanted);
      nearest = nearer ? t : nearest;
    }
    return 1 + nearest * WANDERS.length;
  }

  /** Whether this is more than a hand does: the loading may have slipped. */
  boolean strong() {
    return tremorNoises >= STRONG_TREMOR || wanderNoises >= STRONG_WANDER;
  }

  /**
   * Variance of each member of a basis.
   *
   * @param noise the noise in the unit wanted
   * @param trend prior deviation of level and rise of the straight part, in that unit
   */
  double[] variances(LoadingBasis basis, double rateHertz, double noise, double trend) {
    double[] variances = new double[basis.size()];
    variances[0] = trend * trend;
    variances[1] = trend * trend;
    double band = 0;
    for (int m = 0; m < basis.harmonics(); m++) {
      band += inBand(basis.frequency(m) * rateHertz);
    }
    double step = basis.harmonics() > 0 ? basis.frequency(0) * rateHertz : 1;
    for (int m = 0; m < basis.harmonics(); m++) {
      double hertz = basis.frequency(m) * rateHertz;
      double tremor =
          band > 0 ? noise * noise * tremorNoises * tremorNoises * inBand(hertz) / band : 0;
      double wander =
          noise * noise * wanderNoises * wanderNoises * step / Math.pow(Math.max(0.5, hertz), 4);
      double variance = tremor + wander + 1e-6 * noise * noise;
      variances[2 + 2 * m] = variance;
      variances[3 + 2 * m] = variance;
    }
    variances[basis.shift()] = SHIFT_PERIODS * SHIFT_PERIODS;
    return variances;
  }

  /** One inside the band, falling to zero within 1 Hz outside. */
  private static double inBand(double hertz) {
    double outside = Math.max(LOW_HERTZ - hertz, hertz - HIGH_HERTZ);
    return Math.max(0, Math.min(1, 1 - outside));
  }
}
