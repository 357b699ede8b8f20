package snick.cut.estimate;

/**
 * What the break itself tells. A filament of fixed strength parts when the rising force first
 * reaches that strength: for a strength of unknown size the chance of that in an instant is
 * proportional to the force's rate of rise there, and nil while it sinks (Rice's up-crossing
 * density, from memory). A filament that is cut through little by little parts at any instant.
 * Which of the two happened is not known: both count half. Given the joint normal of force F and
 * rate r, this weighs one half with max(r, 0), the other not at all, and returns the mean and
 * variance of F.
 */
record CrossingWeight(double mean, double variance) {
  /**
   * Doubt between the two, as a share of the squared distance between their means: a quarter for a
   * toss-up, and as much again because a force that reaches a strength for the first time stands
   * higher still than at an average up-crossing, which is not modelled.
   */
  private static final double EITHER_WAY = 0.25 + 0.25;

  static CrossingWeight of(
      double force, double forceVariance, double rate, double rateVariance, double covariance) {
    double s = Math.sqrt(rateVariance);
    if (!(s > 1e-9 * Math.abs(rate)) || rate > 6 * s) {
      return new CrossingWeight(
          force + 0.5 * covariance / rate,
          forceVariance + EITHER_WAY * covariance * covariance / (rate * rate));
    }
    double z = rate / s;
    if (!(z > -4)) {
      return new CrossingWeight(force, forceVariance);
    }
    double inside = normal(z);
    double edge = StrictMath.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);
    double m0 = z * inside + edge;
    double m1 = (z * z + 1) * inside + z * edge;
    double m2 = (z * z * z + 3 * z) * inside + (z * z + 2) * edge;
    double weighted = m1 / m0;
    double spread = Math.max(0, m2 / m0 - weighted * weighted);
    double slope = covariance / s;
    double moved = slope * (weighted - z);
    double narrowed = slope * slope * (1 - spread);
    return new CrossingWeight(
        force + 0.5 * moved, forceVariance - 0.5 * narrowed + EITHER_WAY * moved * moved);
  }

  /** Normal distribution function, by its logistic approximation, good to 0.0002 (from memory). */
  private static double normal(double z) {
    return 1 / (1 + StrictMath.exp(-1.5976 * z - 0.070565976 * z * z * z));
  }
}
