package snick.cut;

/** What the early readings tell of the loading near the break: values at the nodes, normal. */
final class Loading {
  final double[] means;
  private final LateNodes nodes;
  private final EarlyFactor factor;

  Loading(LateNodes nodes, EarlyFactor factor, double[] right) {
    this.nodes = nodes;
    this.factor = factor;
    means = new double[nodes.size()];
    factor.nodeMeans(right, means);
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
    double[] covariance = factor.nodeCovariance();
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
