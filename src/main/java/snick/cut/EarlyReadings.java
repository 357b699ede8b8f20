package snick.cut;

/** What one loading's early readings tell: shared by searches that differ in the late ones only. */
final class EarlyReadings {
  /**
   * Priors less likely than the best by this factor's logarithm are left out: one in eight
   * thousand.
   */
  private static final double NEGLIGIBLE_LOG = 9;

  /** As far behind no rounding makes a prior count. */
  private static final double HOPELESS_LOG = NEGLIGIBLE_LOG + 1;

  private final RampDesign design;
  private final int readings;
  private final double[] coordinates;
  private final double[] evidence = new double[Unevenness.LADDER.size()];
  private final double mostEvidence;
  private final int usual;
  private double[] usualMeans;

  EarlyReadings(RampDesign design, double[] early) {
    this.design = design;
    this.readings = early.length;
    this.coordinates = design.frame(readings).coordinates(early);
    usual = weigh(design.usualBefore());
    mostEvidence = evidence[usual];
    design.setUsualBefore(usual);
  }

  /** Sets the evidence of all priors; which is the likeliest. A good guess of it saves time. */
  private int weigh(int guess) {
    evidence[guess] = logEvidence(0, guess);
    double most = evidence[guess];
    int best = 0;
    for (int u = 0; u < evidence.length; u++) {
      evidence[u] = u == guess ? evidence[u] : logEvidence(0, u, most - HOPELESS_LOG);
      most = Math.max(most, evidence[u]);
      best = evidence[u] > evidence[best] ? u : best;
    }
    return best;
  }

  int size() {
    return readings;
  }

  /** Index of the prior that they bear out best. */
  int usual() {
    return usual;
  }

  /** Whether a prior is so much less likely than the best that it can be left out. */
  boolean negligible(int unevenness) {
    return !(mostEvidence - evidence[unevenness] < NEGLIGIBLE_LOG);
  }

  /** Logarithm of the evidence of a prior under a filter, with the prior's own weight. */
  double logEvidence(int kernel, int unevenness) {
    return logEvidence(kernel, unevenness, Double.NEGATIVE_INFINITY);
  }

  private double logEvidence(int kernel, int unevenness, double least) {
    return design.factor(readings, kernel, unevenness).logEvidence(coordinates, least);
  }

  /** Means of the values at the nodes under the usual prior: those of each filter in turn. */
  double[] usualMeans() {
    if (usualMeans == null) {
      usualMeans = design.meanShares(readings, usual).times(coordinates);
    }
    return usualMeans;
  }

  /** Means of the loading's values at the nodes, then that of its straight part's slope. */
  double[] means(int kernel, int unevenness) {
    return design.nodes(readings, kernel, unevenness).means(coordinates);
  }
}
