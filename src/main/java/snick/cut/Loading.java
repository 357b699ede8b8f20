package snick.cut;

/** What the early readings tell of the loading near the break: values at the nodes, normal. */
final class Loading {
  final double[] means;
  final double[] covariance;
  final double trend;
  final double logEvidence;
  private final LateNodes nodes;

  Loading(LateNodes nodes, EarlyFactor factor, double[] right) {
    this.nodes = nodes;
    double[] z = new double[right.length];
    factor.whiten(right, z);
    means = new double[nodes.size()];
    factor.addNodeMeans(z, means);
    covariance = factor.nodeCovariance();
    trend = factor.trend(z);
    logEvidence = factor.logEvidenceOfWhitened(z);
  }

  /** Mean force at a phase. */
  double forceAt(int phase) {
    double[] share = nodes.sharesAt(phase);
    double sum = 0;
    for (int k = 0; k < share.length; k++) {
      sum += share[k] * means[k];
    }
    return sum;
  }

  /** Covariance of two forms. */
  double variance(double[] a, double[] b) {
    int q = a.length;
    double total = 0;
    for (int i = 0; i < q; i++) {
      double sum = 0;
      for (int j = 0; j < q; j++) {
        sum += covariance[i * q + j] * b[j];
      }
      total += a[i] * sum;
    }
    return total;
  }
}
