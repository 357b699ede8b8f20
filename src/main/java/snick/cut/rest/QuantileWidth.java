package snick.cut.rest;

/** Expected order statistics of the normal distribution. */
final class QuantileWidth {
  private QuantileWidth() {}

  /**
   * Distance from the centre to the order statistic with {@code tail} values outside it, in
   * standard deviations: normal quantile at (tail + 1 − 0.375)/(n + 0.25) (Blom 1958, from memory),
   * the quantile by Tukey's lambda approximation 4.91·(p^0.14 − (1−p)^0.14) (from memory).
   */
  static double ofNormal(int tail, int n) {
    double p = (tail + 0.625) / (n + 0.25);
    return 4.91 * (StrictMath.pow(1 - p, 0.14) - StrictMath.pow(p, 0.14));
  }
}
