package snick.cut;

/**
 * All that the regression on the early readings needs and that does not depend on them: for one
 * number of early readings, one filter and one prior. Time zero is the reference sample.
 */
final class EarlyFactor {
  private final int size;
  private final double[] gains;
  private final double[] columns;
  private final double[] inverseDiagonal;
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
    double[] lower = new double[size * size];
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
    double[] whiteNodes = new double[size * q];
    this.covariance = new double[q * q];
    double[] row = new double[size];
    for (int j = 0; j < q; j++) {
      basis.at(nodes.time(j), row);
      Lower.forward(lower, size, row);
      for (int k = 0; k < size; k++) {
        whiteNodes[k * q + j] = row[k];
      }
    }
    for (int k = 0; k < size; k++) {
      for (int i = 0; i < q; i++) {
        addScaled(whiteNodes, k * q, whiteNodes[k * q + i], covariance, i * q, q);
      }
    }
    this.columns = new double[size * size];
    this.inverseDiagonal = new double[size];
    for (int i = 0; i < size; i++) {
      for (int j = 0; j < i; j++) {
        columns[j * size + i] = lower[i * size + j];
      }
      inverseDiagonal[i] = 1 / lower[i * size + i];
    }
    this.toNodes = new double[q * size];
    for (int j = 0; j < q; j++) {
      for (int k = 0; k < size; k++) {
        row[k] = whiteNodes[k * q + j];
      }
      fromRight(lower, row);
      System.arraycopy(row, 0, toNodes, j * size, size);
    }
    this.toTrend = new double[size];
    toTrend[1] = 1 / basis.scale();
    Lower.forward(lower, size, toTrend);
    fromRight(lower, toTrend);
  }

  /** Makes of a form of the whitened readings the same form of the basis times the readings. */
  private void fromRight(double[] lower, double[] form) {
    Lower.backward(lower, size, form);
    for (int k = 0; k < size; k++) {
      form[k] *= gains[k];
    }
  }

  /**
   * Logarithm of the evidence of the early readings, up to what is common to all priors.
   *
   * @param right the basis times the readings
   */
  double logEvidence(double[] right) {
    double[] z = new double[size];
    for (int i = 0; i < size; i++) {
      z[i] = right[i] * gains[i];
    }
    double square = 0;
    for (int j = 0; j < size; j++) {
      double solved = z[j] * inverseDiagonal[j];
      square += solved * solved;
      for (int i = j + 1; i < size; i++) {
        z[i] -= solved * columns[j * size + i];
      }
    }
    return 0.5 * square - logSpread;
  }

  /** Means of the loading's values at the nodes. */
  void nodeMeans(double[] right, double[] means) {
    for (int j = 0; j < q; j++) {
      means[j] = dot(toNodes, j * size, right);
    }
  }

  /** Mean of the straight part's slope, per period. */
  double trend(double[] right) {
    return dot(toTrend, 0, right);
  }

  /** Covariance of the loading's values at the nodes. */
  double[] nodeCovariance() {
    return covariance;
  }

  private static void addScaled(
      double[] from, int fromAt, double factor, double[] to, int toAt, int n) {
    for (int i = 0; i < n; i++) {
      to[toAt + i] += factor * from[fromAt + i];
    }
  }

  private static double dot(double[] rows, int from, double[] form) {
    double sum = 0;
    for (int k = 0; k < form.length; k++) {
      sum += rows[from + k] * form[k];
    }
    return sum;
  }
}
