package snick.cut;

/**
 * All that the regression on the early readings needs and that does not depend on them: for one
 * frame, one filter and one prior. The straight part has a flat prior. What tells of the nodes is
 * worked out when it is first asked for.
 */
final class EarlyFactor {
  private final EarlyFrame frame;
  private final double[] gains;
  private final double[] deviations;
  private final double[] whitener;
  private final double logSpread;
  private Nodes nodes;

  /**
   * A factor.
   *
   * @param gains gain of the filter for each sinusoid
   * @param deviations prior deviation of each sinusoid's coefficient, noises
   */
  EarlyFactor(EarlyFrame frame, double[] gains, double[] deviations) {
    this.frame = frame;
    this.gains = gains;
    this.deviations = deviations;
    int rank = frame.rank();
    double[] lower = new double[rank * rank];
    double[][] seen = seen();
    for (int i = 0; i < rank; i++) {
      for (int j = 0; j <= i; j++) {
        lower[i * rank + j] = Lower.dot(seen[i], seen[j]) + (i == j ? 1 : 0);
      }
    }
    if (!Lower.factor(lower, rank)) {
      throw new IllegalStateException("a sum of squares and noise is always definite");
    }
    this.logSpread = Lower.logDiagonal(lower, rank);
    this.whitener = Lower.inverse(lower, rank);
  }

  /** How the frame sees sinusoids of their prior deviation. */
  private double[][] seen() {
    double[][] seen = new double[frame.rank()][gains.length];
    for (int i = 0; i < seen.length; i++) {
      for (int m = 0; m < gains.length; m++) {
        seen[i][m] = frame.inRest(i, m) * gains[m] * deviations[m];
      }
    }
    return seen;
  }

  /**
   * Logarithm of the evidence of the early readings, up to what is common to all filters and
   * priors.
   *
   * @param coordinates of the readings in the frame
   */
  double logEvidence(double[] coordinates) {
    int rank = frame.rank();
    double[] weights = whitener;
    double square = 0;
    for (int i = 0; i < rank; i++) {
      double white = 0;
      int row = i * rank;
      for (int j = 0; j <= i; j++) {
        white += weights[row + j] * coordinates[2 + j];
      }
      square += white * white;
    }
    return -0.5 * square - logSpread;
  }

  /** What the coordinates tell of the loading's values at the nodes. */
  Nodes nodes(LoadingBasis basis, LateNodes late) {
    if (nodes == null) {
      nodes = new Nodes(basis, late);
    }
    return nodes;
  }

  /** Values at the nodes, and last the slope of the straight part, per period. */
  final class Nodes {
    private final int size;
    private final double[] means;
    private final double[] covariance;

    private Nodes(LoadingBasis basis, LateNodes late) {
      int rank = frame.rank();
      size = late.size();
      means = new double[(size + 1) * (2 + rank)];
      double[][] own = new double[size + 1][];
      double[][] shared = new double[size + 1][];
      double[][] seen = seen();
      for (int j = 0; j <= size; j++) {
        own[j] = own(basis, late, j);
        shared[j] = new double[rank];
        for (int i = 0; i < rank; i++) {
          shared[j][i] = Lower.dot(seen[i], own[j]);
        }
        Lower.multiply(whitener, rank, shared[j]);
        System.arraycopy(shared[j], 0, means, j * (2 + rank) + 2, rank);
        Lower.multiplyTransposed(whitener, rank, means, j * (2 + rank) + 2);
      }
      covariance = new double[size * size];
      for (int i = 0; i < size; i++) {
        for (int j = 0; j < size; j++) {
          covariance[i * size + j] =
              ofTrend(i, 0) * ofTrend(j, 0)
                  + ofTrend(i, 1) * ofTrend(j, 1)
                  + Lower.dot(own[i], own[j])
                  - Lower.dot(shared[i], shared[j]);
        }
      }
    }

    /**
     * What sinusoids of their prior deviation give node j while the straight part makes up for them
     * in its own readings; the straight part's share goes into the means.
     */
    private double[] own(LoadingBasis basis, LateNodes late, int j) {
      double[] row = new double[basis.size()];
      if (j < size) {
        basis.at(late.time(j), row);
      } else {
        row[1] = 1 / basis.scale();
      }
      int at = j * (2 + frame.rank());
      means[at] = row[0] * frame.trendInverse(0, 0) + row[1] * frame.trendInverse(1, 0);
      means[at + 1] = row[0] * frame.trendInverse(0, 1) + row[1] * frame.trendInverse(1, 1);
      double[] own = new double[gains.length];
      for (int m = 0; m < own.length; m++) {
        double trend = means[at] * frame.inTrend(0, m) + means[at + 1] * frame.inTrend(1, m);
        own[m] = (row[2 + m] - trend * gains[m]) * deviations[m];
      }
      return own;
    }

    private double ofTrend(int j, int coordinate) {
      return means[j * (2 + frame.rank()) + coordinate];
    }

    /** Means of the values at the nodes. */
    void means(double[] coordinates, double[] out) {
      for (int j = 0; j < out.length; j++) {
        out[j] = mean(coordinates, j);
      }
    }

    /** Mean of the straight part's slope, per period. */
    double slope(double[] coordinates) {
      return mean(coordinates, size);
    }

    private double mean(double[] coordinates, int j) {
      int row = j * coordinates.length;
      double sum = 0;
      for (int k = 0; k < coordinates.length; k++) {
        sum += means[row + k] * coordinates[k];
      }
      return sum;
    }

    /** Covariance of the values at the nodes. */
    double[] covariance() {
      return covariance;
    }
  }
}
