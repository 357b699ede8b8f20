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

  /** Square of the slide. */
  final double slideSquare;

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
    place = spreads.places();
    n = place.length;
    seen = new double[(n + 2) * q];
    gone = new double[n];
    slide = new double[n];
    spread = new double[n];
    force = new double[n];
    rate = new double[n];
    gather(table.weights(phase), table.densities(phase), spreads);
    double[] joint = joint(nodeCovariance);
    double[] lower = lateOf(joint);
    if (!Lower.factor(lower, n)) {
      throw new IllegalStateException("a covariance and noise is always definite");
    }
    logDiagonal = Lower.logDiagonal(lower, n);
    whitener = Lower.inverse(lower, n);
    whiten();
    forceVariance = joint[n * (n + 2) + n] - Lower.dot(force, force);
    rateVariance = joint[(n + 1) * (n + 2) + n + 1] - Lower.dot(rate, rate);
    covariance = joint[(n + 1) * (n + 2) + n] - Lower.dot(force, rate);
    slideSquare = Lower.dot(slide, slide);
  }

  /** Rows of the late readings, then those of the force at the break and of its rate. */
  private void gather(double[] weights, double[] densities, LateSpread spreads) {
    for (int i = 0; i < n; i++) {
      double loaded = 0;
      for (int k = 0; k < q; k++) {
        seen[i * q + k] = weights[place[i] * q + k];
        loaded += seen[i * q + k];
      }
      gone[i] = 1 - loaded;
      slide[i] = densities[place[i]];
      spread[i] = spreads.variance(gone[i]);
    }
    System.arraycopy(forceShare, 0, seen, n * q, q);
    System.arraycopy(rateShare, 0, seen, (n + 1) * q, q);
  }

  /** Joint covariance of all rows, the late readings' own scatter included. */
  private double[] joint(double[] sigma) {
    int rows = n + 2;
    double[] joint = new double[rows * rows];
    for (int i = 0; i < rows; i++) {
      double[] product = new double[q];
      for (int k = 0; k < q; k++) {
        double weight = seen[i * q + k];
        for (int m = 0; m < q; m++) {
          product[m] += weight * sigma[k * q + m];
        }
      }
      for (int j = 0; j < rows; j++) {
        double both = j == i && i < n ? spread[i] : 0;
        for (int k = 0; k < q; k++) {
          both += product[k] * seen[j * q + k];
        }
        joint[i * rows + j] = both;
      }
    }
    return joint;
  }

  /** The late readings' own part; their part with force and rate goes into those. */
  private double[] lateOf(double[] joint) {
    int rows = n + 2;
    double[] late = new double[n * n];
    for (int i = 0; i < n; i++) {
      System.arraycopy(joint, i * rows, late, i * n, n);
      force[i] = joint[i * rows + n];
      rate[i] = joint[i * rows + n + 1];
    }
    return late;
  }

  private void whiten() {
    for (int i = n - 1; i >= 0; i--) {
      whitenRow(i);
    }
  }

  /** Row i of what whitening makes of all rows up to it; from the last row on. */
  private void whitenRow(int i) {
    double ofGone = 0;
    double ofSlide = 0;
    double ofForce = 0;
    double ofRate = 0;
    for (int j = 0; j <= i; j++) {
      double weight = whitener[i * n + j];
      ofGone += weight * gone[j];
      ofSlide += weight * slide[j];
      ofForce += weight * force[j];
      ofRate += weight * rate[j];
    }
    gone[i] = ofGone;
    slide[i] = ofSlide;
    force[i] = ofForce;
    rate[i] = ofRate;
    for (int k = 0; k < q; k++) {
      double sum = 0;
      for (int j = 0; j <= i; j++) {
        sum += whitener[i * n + j] * seen[j * q + k];
      }
      seen[i * q + k] = sum;
    }
  }

  /** The late readings whitened, less what a loading with these values at the nodes gives them. */
  void whiten(double[] late, double after, double[] atNodes, double[] white) {
    double[] weights = whitener;
    for (int i = 0; i < n; i++) {
      white[i] = late[place[i]];
    }
    for (int i = n - 1; i >= 0; i--) {
      double sum = -after * gone[i];
      for (int j = 0; j <= i; j++) {
        sum += weights[i * n + j] * white[j];
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
