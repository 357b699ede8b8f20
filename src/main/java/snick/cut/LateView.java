package snick.cut;

/**
 * How the late samples see a loading under one filter, one break, one prior and one spread: all of
 * it that does not depend on the readings, so that it is worked out once and kept from cut to cut.
 * Everything is whitened: in coordinates in which what the early readings leave open, and the
 * noise, have unit covariance.
 */
final class LateView {
  /** How many late readings are usable. */
  final int n;

  /** Which they are. */
  final int[] place;

  /** Share of each node's value in the force at the break, and in its rate, per period. */
  final double[] forceShare;

  final double[] rateShare;

  /** What the level after the break adds, what a later break adds for each unit of force. */
  final double[] gone;

  final double[] slide;

  /** Covariance of the force at the break, and of its rate, with the whitened readings. */
  final double[] force;

  final double[] rate;

  /** Variances of force and rate and their covariance, the late readings known. */
  final double forceVariance;

  final double rateVariance;
  final double covariance;

  final double logDiagonal;

  private final double[] whitener;
  private final double[] seen;
  private final double[] spread;
  private final int q;

  /** The view through a filter of a loading that ends at {@code phase}. */
  LateView(
      KernelTable table, int phase, LateNodes nodes, double[] nodeCovariance, LateSpread spreads) {
    q = nodes.size();
    forceShare = nodes.sharesAt(phase);
    rateShare = nodes.slopeSharesAt(phase);
    place = new int[Integer.bitCount(spreads.usableBits())];
    n = place.length;
    seen = new double[n * q];
    gone = new double[n];
    slide = new double[n];
    spread = new double[n];
    force = new double[n];
    rate = new double[n];
    double[] lower = new double[n * n];
    gather(table.weights(phase), table.densities(phase), nodeCovariance, spreads, lower);
    if (!Lower.factor(lower, n)) {
      throw new IllegalStateException("a covariance and noise is always definite");
    }
    logDiagonal = Lower.logDiagonal(lower, n);
    whitener = Lower.inverse(lower, n);
    Lower.multiply(whitener, n, gone);
    Lower.multiply(whitener, n, slide);
    Lower.multiply(whitener, n, force);
    Lower.multiply(whitener, n, rate);
    whitenSeen();
    forceVariance = form(nodeCovariance, forceShare, forceShare) - Lower.dot(force, force);
    rateVariance = form(nodeCovariance, rateShare, rateShare) - Lower.dot(rate, rate);
    covariance = form(nodeCovariance, forceShare, rateShare) - Lower.dot(force, rate);
  }

  private void gather(
      double[] weights, double[] densities, double[] sigma, LateSpread spreads, double[] lower) {
    int i = 0;
    for (int late = 0; late < RampWindow.LATE; late++) {
      if (!spreads.usable(late)) {
        continue;
      }
      place[i] = late;
      slide[i] = densities[late];
      System.arraycopy(weights, late * q, seen, i * q, q);
      double loaded = 0;
      double[] product = new double[q];
      for (int k = 0; k < q; k++) {
        double weight = seen[i * q + k];
        loaded += weight;
        for (int m = 0; m < q; m++) {
          product[m] += weight * sigma[k * q + m];
        }
      }
      gone[i] = 1 - loaded;
      spread[i] = spreads.variance(gone[i]);
      force[i] = Lower.dot(product, forceShare);
      rate[i] = Lower.dot(product, rateShare);
      for (int j = 0; j <= i; j++) {
        double both = j == i ? spread[i] : 0;
        for (int k = 0; k < q; k++) {
          both += product[k] * seen[j * q + k];
        }
        lower[i * n + j] = both;
      }
      i++;
    }
  }

  private void whitenSeen() {
    for (int i = n - 1; i >= 0; i--) {
      whitenSeen(i);
    }
  }

  /** Row i of what whitening makes of all rows up to it; from the last row on. */
  private void whitenSeen(int i) {
    for (int k = 0; k < q; k++) {
      double sum = 0;
      for (int j = 0; j <= i; j++) {
        sum += whitener[i * n + j] * seen[j * q + k];
      }
      seen[i * q + k] = sum;
    }
  }

  private double form(double[] sigma, double[] a, double[] b) {
    double total = 0;
    for (int i = 0; i < q; i++) {
      double sum = 0;
      for (int j = 0; j < q; j++) {
        sum += sigma[i * q + j] * b[j];
      }
      total += a[i] * sum;
    }
    return total;
  }

  /** The late readings whitened, less what a loading with these values at the nodes gives them. */
  void whiten(double[] late, double after, double[] atNodes, double[] white) {
    for (int i = 0; i < n; i++) {
      double sum = -after * gone[i];
      for (int j = 0; j <= i; j++) {
        sum += whitener[i * n + j] * late[place[j]];
      }
      for (int k = 0; k < q; k++) {
        sum -= seen[i * q + k] * atNodes[k];
      }
      white[i] = sum;
    }
  }

  /**
   * Root mean square of what is left of the late readings over their deviation.
   *
   * @param white the readings, whitened, what is explained taken off; overwritten
   */
  double misfit(double[] white) {
    Lower.multiplyTransposed(whitener, n, white, 0);
    double sum = 0;
    for (int i = 0; i < n; i++) {
      sum += spread[i] * white[i] * white[i];
    }
    return Math.sqrt(sum / n);
  }
}
