package snick.cut;

/**
 * All that the regression on the early readings needs and that does not depend on them: for one
 * number of early readings, one filter and one prior. Time zero is the reference sample.
 */
final class EarlyFactor {
  private final int size;
  private final double[] gains;
  private final double[] lower;
  private final double logSpread;
  private final double[] toNodes;
  private final double[] covariance;
  private final double[] toTrend;
  private final int q;

  /**
   * A factor.
   *
   * @param gram sum of the outer products of the basis over the early readings
   * @param gains gain of the filter for each member of the basis
   * @param variances prior variance of each member
   */
  EarlyFactor(
      double[] gram, double[] gains, double[] variances, LoadingBasis basis, LateNodes nodes) {
    this.size = gains.length;
    this.gains = gains;
    this.q = nodes.size();
    this.lower = new double[size * size];
    double logPrior = 0;
    for (int i = 0; i < size; i++) {
      for (int j = 0; j <= i; j++) {
        lower[i * size + j] = gram[i * size + j] * gains[i] * gains[j];
      }
      lower[i * size + i] += 1 / variances[i];
      logPrior += Math.log(variances[i]);
    }
    if (!Lower.factor(lower, size)) {
      throw new IllegalStateException("a sum of squares with a prior is always definite");
    }
    this.logSpread = 0.5 * logPrior + Lower.logDiagonal(lower, size);
    this.toNodes = new double[q * size];
    double[] row = new double[size];
    for (int j = 0; j < q; j++) {
      basis.at(nodes.time(j), row);
      Lower.forward(lower, size, row);
      System.arraycopy(row, 0, toNodes, j * size, size);
    }
    this.covariance = new double[q * q];
    for (int i = 0; i < q; i++) {
      for (int j = 0; j < q; j++) {
        covariance[i * q + j] = dot(toNodes, i * size, toNodes, j * size, size);
      }
    }
    this.toTrend = new double[size];
    toTrend[1] = 1 / basis.scale();
    Lower.forward(lower, size, toTrend);
  }

  /** The early readings as this prior sees them; {@code right} is the basis times the readings. */
  void whiten(double[] right, double[] z) {
    for (int i = 0; i < size; i++) {
      z[i] = right[i] * gains[i];
    }
    Lower.forward(lower, size, z);
  }

  /** Logarithm of the evidence of the early readings, up to what is common to all priors. */
  double logEvidence(double[] z) {
    return 0.5 * dot(z, 0, z, 0, size) - logSpread;
  }

  /** Means of the loading's values at the nodes. */
  void nodeMeans(double[] z, double[] means) {
    for (int j = 0; j < q; j++) {
      means[j] = dot(toNodes, j * size, z, 0, size);
    }
  }

  /** Mean of the straight part's slope, per period. */
  double trend(double[] z) {
    return dot(toTrend, 0, z, 0, size);
  }

  /** Covariance of the loading's values at the nodes. */
  double[] nodeCovariance() {
    return covariance;
  }

  private static double dot(double[] a, int fromA, double[] b, int fromB, int n) {
    double sum = 0;
    for (int k = 0; k < n; k++) {
      sum += a[fromA + k] * b[fromB + k];
    }
    return sum;
  }
}
