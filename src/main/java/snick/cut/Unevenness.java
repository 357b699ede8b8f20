package snick.cut;

import java.util.ArrayList;
import java.util.List;

/**
 * Prior of uneven loading: the variance of each member of the basis.
 *
 * @param tremorCounts rms of tremor, spread evenly over 4–12 Hz (the band of physiological hand
 *     tremor, common practice), counts
 * @param wanderCounts rms at 1 Hz of slow changes of speed, whose power falls with the fourth power
 *     of frequency, counts per √Hz
 * @param logPrior logarithm of this prior's own weight, up to a constant
 */
record Unevenness(double tremorCounts, double wanderCounts, double logPrior) {
  private static final int TREMORS = 6;
  private static final int WANDERS = 4;
  private static final double EVEN_SHARE_LOG = Math.log(TREMORS * WANDERS);
  private static final double LEAST_NOISES = 0.3;
  private static final double MOST_OF_HEIGHT = 0.06;

  private static final double LOW_HERTZ = 3.5;
  private static final double HIGH_HERTZ = 12.5;

  /** How far the break may lie from where it is looked for, standard deviation in periods. */
  private static final double SHIFT_PERIODS = 0.3;

  Unevenness(double tremorCounts, double wanderCounts) {
    this(tremorCounts, wanderCounts, 0);
  }

  /** Even loading, half of the weight; and strengths in geometric steps up to 6 % of the height. */
  static List<Unevenness> grid(double noise, double height) {
    List<Unevenness> grid = new ArrayList<>();
    double least = LEAST_NOISES * noise;
    double span = Math.max(4 * noise, MOST_OF_HEIGHT * height) / least;
    grid.add(new Unevenness(0.03 * noise, 0.03 * noise, EVEN_SHARE_LOG));
    for (int i = 0; i < TREMORS; i++) {
      double tremor = least * Math.pow(span, i / (TREMORS - 1.0));
      for (int j = 0; j < WANDERS; j++) {
        grid.add(new Unevenness(tremor, least * Math.pow(span, j / (WANDERS - 1.0))));
      }
    }
    return grid;
  }

  double[] variances(LoadingBasis basis, double rateHertz, double trendCounts) {
    double[] variances = new double[basis.size()];
    variances[0] = trendCounts * trendCounts;
    variances[1] = trendCounts * trendCounts;
    double band = 0;
    for (int m = 0; m < basis.harmonics(); m++) {
      band += inBand(basis.frequency(m) * rateHertz);
    }
    double step = basis.harmonics() > 0 ? basis.frequency(0) * rateHertz : 1;
    for (int m = 0; m < basis.harmonics(); m++) {
      double hertz = basis.frequency(m) * rateHertz;
      double tremor = band > 0 ? tremorCounts * tremorCounts * inBand(hertz) / band : 0;
      double wander = wanderCounts * wanderCounts * step / Math.pow(Math.max(0.5, hertz), 4);
      double variance = tremor + wander + 1e-12 * trendCounts * trendCounts;
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
