package snick.cut;

/**
 * How the late samples see a loading under one filter, one break and one prior: all of it that does
 * not depend on the readings, so that it is worked out once and kept from cut to cut.
 */
final class LateView {
  private final double[] weights;
  private final double[] densities;
  private final double[] loaded = new double[RampWindow.LATE];
  private final double[] product;
  private final double[] covariance;
  private final int q;

  /** The view through a filter of a loading that ends at {@code phase}. */
  LateView(KernelTable table, int phase, double[] nodeCovariance, int nodes) {
    q = nodes;
    weights = table.weights(phase);
    densities = table.densities(phase);
    product = new double[RampWindow.LATE * q];
    covariance = new double[RampWindow.LATE * RampWindow.LATE];
    for (int i = 0; i < RampWindow.LATE; i++) {
      for (int k = 0; k < q; k++) {
        loaded[i] += weights[i * q + k];
        for (int m = 0; m < q; m++) {
          product[i * q + m] += weights[i * q + k] * nodeCovariance[k * q + m];
        }
      }
      for (int j = 0; j <= i; j++) {
        double both = 0;
        for (int k = 0; k < q; k++) {
          both += weights[i * q + k] * product[j * q + k];
        }
        covariance[i * RampWindow.LATE + j] = both;
      }
    }
  }

  /** What late sample i sees of a loading with these values at the nodes. */
  double seen(int i, double[] atNodes) {
    return inner(weights, i, atNodes);
  }

  /** Share of the filter's weight at late sample i that lies before the break. */
  double loaded(int i) {
    return loaded[i];
  }

  /** The filter's weight per period at the break, for late sample i. */
  double density(int i) {
    return densities[i];
  }

  /** Covariance of what late samples i ≥ j see. */
  double covariance(int i, int j) {
    return covariance[i * RampWindow.LATE + j];
  }

  /** Covariance of what late sample i sees with a form of the values at the nodes. */
  double with(int i, double[] form) {
    return inner(product, i, form);
  }

  private double inner(double[] rows, int i, double[] form) {
    double sum = 0;
    for (int k = 0; k < q; k++) {
      sum += rows[i * q + k] * form[k];
    }
    return sum;
  }
}
