package snick.cut;

import java.util.Arrays;

/**
 * All that the regression on the early readings needs and that does not depend on them: for one
 * frame, one filter and one prior. The straight part has a flat prior. What tells of the nodes is
 * worked out when it is first asked for.
 */
final class EarlyFactor {
  private final EarlyFrame frame;
  private final double[] gains;
  private final double[] deviations;
  private final RowBlocks whitener;
  private final double logSpread;
  private final double logPrior;
  private Nodes nodes;

  /**
   * A factor.
   *
   * @param gains gain of the filter for each sinusoid
   * @param deviations prior deviation of each sinusoid's coefficient, noises
   * @param logPrior logarithm of the prior's own weight
   */
  EarlyFactor(EarlyFrame frame, double[] gains, double[] deviations, double logPrior) {
    this.frame = frame;
    this.gains = gains;
    this.deviations = deviations;
    this.logPrior = logPrior;
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
    this.whitener = RowBlocks.lower(Lower.inverse(lower, rank), rank);
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
   * Logarithm of the evidence of the early readings with the prior's own weight, up to what is
   * common to all filters and priors; something above it, and below {@code least}, as soon as that
   * is certain.
   *
   * @param coordinates of the readings in the frame
   */
  double logEvidence(double[] coordinates, double least) {
    double mostSquare = -2 * (least + logSpread - logPrior);
    return -0.5 * whitener.squareOfLower(coordinates, 2, mostSquare) - logSpread + logPrior;
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
    private final RowBlocks means;
    private final RowBlocks covariance;

    private Nodes(LoadingBasis basis, LateNodes late) {
      int rank = frame.rank();
      size = late.size();
      means = new RowBlocks(size + 1, 2 + rank);
      double[][] own = new double[size + 1][];
      double[][] shared = new double[size + 1][];
      double[][] seen = seen();
      for (int j = 0; j <= size; j++) {
        own[j] = own(basis, late, j);
        shared[j] = new double[rank];
        for (int i = 0; i < rank; i++) {
          shared[j][i] = Lower.dot(seen[i], own[j]);
        }
        shared[j] = whitened(shared[j]);
        addWhitenedBack(shared[j], j);
      }
      covariance = new RowBlocks(size, size);
      for (int i = 0; i < size; i++) {
        for (int j = 0; j < size; j++) {
          covariance.set(i, j, covariance(own, shared, i, j));
        }
      }
    }

    private double[] whitened(double[] seen) {
      return Arrays.copyOf(whitener.times(seen), seen.length);
    }

    /** The sinusoids' share in the mean of node j. */
    private void addWhitenedBack(double[] white, int j) {
      for (int i = 0; i < white.length; i++) {
        means.set(j, 2 + i, whitener.columnTimes(i, white, i));
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
      double level = row[0] * frame.trendInverse(0, 0) + row[1] * frame.trendInverse(1, 0);
      double slope = row[0] * frame.trendInverse(0, 1) + row[1] * frame.trendInverse(1, 1);
      means.set(j, 0, level);
      means.set(j, 1, slope);
      double[] own = new double[gains.length];
      for (int m = 0; m < own.length; m++) {
        double trend = level * frame.inTrend(0, m) + slope * frame.inTrend(1, m);
        own[m] = (row[2 + m] - trend * gains[m]) * deviations[m];
      }
      return own;
    }

    private double covariance(double[][] own, double[][] shared, int i, int j) {
      return ofTrend(i, 0) * ofTrend(j, 0)
          + ofTrend(i, 1) * ofTrend(j, 1)
          + Lower.dot(own[i], own[j])
          - Lower.dot(shared[i], shared[j]);
    }

    private double ofTrend(int j, int coordinate) {
      return share(j, coordinate);
    }

    /** Share of a coordinate in the mean of node j. */
    double share(int j, int coordinate) {
      return means.at(j, coordinate);
    }

    /** Means of the values at the nodes, then that of the straight part's slope, per period. */
    double[] means(double[] coordinates) {
      return means.times(coordinates);
    }

    /** Covariance of the values at the nodes. */
    RowBlocks covariance() {
      return covariance;
    }
  }
}
