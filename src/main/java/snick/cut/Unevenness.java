package snick.cut;

/**
 * Prior of uneven loading: the variance of each member of the basis.
 *
 * @param tremorCounts rms of tremor, spread evenly over 4–12 Hz (the band of physiological hand
 *     tremor, common practice), counts
 * @param wanderCounts rms at 1 Hz of slow changes of speed, whose power falls with the fourth power
 *     of frequency, counts per √Hz
 */
record Unevenness(double tremorCounts, double wanderCounts) {
  private static final double LOW_HERTZ = 3.5;
  private static final double HIGH_HERTZ = 12.5;

  /** How far the break may lie from where it is looked for, standard deviation in periods. */
  private static final double SHIFT_PERIODS = 0.3;

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
      double tremor =
          band > 0 ? tremorCounts * tremorCounts * inBand(hertz) / band : 0;
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
