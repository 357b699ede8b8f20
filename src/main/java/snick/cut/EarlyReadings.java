package snick.cut;

/** What one loading's early readings tell: shared by searches that differ in the late ones only. */
final class EarlyReadings {
  private final RampDesign design;
  private final int readings;
  private final double[] coordinates;
  private final double[] evidence = new double[Unevenness.LADDER.size()];
  private final double[][] usualMeans = new double[Kernel.FAMILY.size()][];
  private final double mostEvidence;
  private final int usual;

  EarlyReadings(RampDesign design, double[] early) {
    this.design = design;
    this.readings = early.length;
    this.coordinates = design.frame(readings).coordinates(early);
    int best = 0;
    for (int u = 0; u < evidence.length; u++) {
      evidence[u] = logEvidence(0, u);
      best = evidence[u] > evidence[best] ? u : best;
    }
    usual = best;
    mostEvidence = evidence[best];
  }

  int size() {
    return readings;
  }

  /** Index of the prior that they bear out best. */
  int usual() {
    return usual;
  }

  /** How far a prior falls behind the best, as the logarithm of its evidence. */
  double behind(int unevenness) {
    return mostEvidence - evidence[unevenness];
  }

  /** Logarithm of the evidence of a prior under a filter, with the prior's own weight. */
  double logEvidence(int kernel, int unevenness) {
    return design.factor(readings, kernel, unevenness).logEvidence(coordinates)
        + Unevenness.LADDER.get(unevenness).logPrior();
  }

  /** Means of the loading's values at the nodes under the usual prior. */
  double[] usualMeans(int kernel) {
    if (usualMeans[kernel] == null) {
      usualMeans[kernel] = means(kernel, usual);
    }
    return usualMeans[kernel];
  }

  /** Means of the loading's values at the nodes. */
  double[] means(int kernel, int unevenness) {
    double[] means = new double[design.nodes().size()];
    design.nodes(readings, kernel, unevenness).means(coordinates, means);
    return means;
  }

  /** Slope of the straight part, per period. */
  double slope(int kernel, int unevenness) {
    return design.nodes(readings, kernel, unevenness).slope(coordinates);
  }
}
