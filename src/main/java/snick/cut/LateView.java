package snick.cut;

import java.util.Arrays;

/**
 * How the late samples see a loading under one filter, one break, one prior and one spread: all of
 * it that does not depend on the readings, so that it is worked out once and kept from cut to cut.
 * Everything is whitened: in coordinates in which what the early readings leave open, and the
 * noise, have unit covariance. Zeros fill up what has one entry for each of these.
 */
final class LateView {
  private static final int LATE = RampWindow.LATE;

  /** Where the values at the nodes begin in what is whitened. */
  static final int NODES_FROM = 1 + LATE;

  /** How many late readings are usable, and of coordinates. */
  final int n;

  /** Share of each node's value in the force at the break, and in its rate, per period. */
  final double[] forceShare;

  final double[] rateShare;

  /** What a later break adds for each unit of force. */
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

  /**
   * What whitening makes of the level after the break, of each late reading and of the loading's
   * value at each node: all in one piece of memory, for it is that which fitting waits for.
   */
  private final RowBlocks whitener;

  private final int[] place;
  private final double[] spread = new double[LATE];

  /**
   * The view through a filter of a loading that ends at a phase.
   *
   * @param nodeCovariance what the early readings leave open
   */
  LateView(KernelTable.Seen seen, LateNodes nodes, RowBlocks nodeCovariance, LateSpread spreads) {
    forceShare = nodes.sharesAt(seen.phase);
    rateShare = nodes.slopeSharesAt(seen.phase);
    place = spreads.places();
    n = place.length;
    for (int i = 0; i < LATE; i++) {
      spread[i] = spreads.variance(seen.gone[i]);
    }
    double[][] joint = joint(seen, nodes.size(), nodeCovariance);
    double[] lower = usable(joint);
    if (!Lower.factor(lower, n)) {
      throw new IllegalStateException("a covariance and noise is always definite");
    }
    logDiagonal = Lower.logDiagonal(lower, n);
    RowBlocks ofReadings = ofReadings(Lower.inverse(lower, n));
    whitener = whitener(ofReadings, seen, nodes.size());
    slide = ofReadings.times(seen.densities);
    force = ofReadings.times(column(joint, LATE));
    rate = ofReadings.times(column(joint, LATE + 1));
    forceVariance = joint[LATE][LATE] - Lower.dot(force, force);
    rateVariance = joint[LATE + 1][LATE + 1] - Lower.dot(rate, rate);
    covariance = joint[LATE + 1][LATE] - Lower.dot(force, rate);
    slideSquare = Lower.dot(slide, slide);
  }

  /** Joint covariance of late readings, their own scatter included, and of force and rate. */
  private double[][] joint(KernelTable.Seen seen, int nodes, RowBlocks nodeCovariance) {
    double[][] joint = new double[LATE + 2][];
    for (int i = 0; i < joint.length; i++) {
      joint[i] = new double[seen.loading.sums()];
      if (i < LATE) {
        joint[i][i] = spread[i];
      }
      double[] withNodes = new double[nodeCovariance.sums()];
      nodeCovariance.add(seen.weights, i * nodes, withNodes);
      seen.loading.add(withNodes, 0, joint[i]);
    }
    return joint;
  }

  /** The usable readings' own part. */
  private double[] usable(double[][] joint) {
    double[] lower = new double[n * n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j <= i; j++) {
        lower[i * n + j] = joint[place[i]][place[j]];
      }
    }
    return lower;
  }

  private static double[] column(double[][] joint, int j) {
    double[] column = new double[LATE];
    for (int i = 0; i < LATE; i++) {
      column[i] = joint[i][j];
    }
    return column;
  }

  private RowBlocks ofReadings(double[] inverse) {
    RowBlocks ofReadings = new RowBlocks(n, LATE);
    for (int i = 0; i < n; i++) {
      for (int j = 0; j <= i; j++) {
        ofReadings.set(i, place[j], inverse[i * n + j]);
      }
    }
    return ofReadings;
  }

  /** The whole from the part for the readings, which whitens the rest. */
  private static RowBlocks whitener(RowBlocks ofReadings, KernelTable.Seen seen, int nodes) {
    RowBlocks whole = new RowBlocks(ofReadings.sums(), NODES_FROM + nodes);
    double[] off = new double[LATE];
    for (int k = 0; k <= nodes; k++) {
      for (int i = 0; i < LATE; i++) {
        off[i] = -(k < nodes ? seen.weights[i * nodes + k] : seen.gone[i]);
      }
      whole.setColumn(k < nodes ? NODES_FROM + k : 0, ofReadings.times(off));
    }
    for (int j = 0; j < LATE; j++) {
      whole.setColumn(1 + j, ofReadings, j);
    }
    return whole;
  }

  /**
   * The late readings whitened, less what a loading gives them.
   *
   * @param given the level after the break, the late readings, and the values at the nodes
   */
  void whiten(double[] given, double[] white) {
    Arrays.fill(white, 0);
    whitener.add(given, 0, white);
  }

  /**
   * Root mean square of what is left of the late readings over their deviation.
   *
   * @param white the readings, whitened, what is explained taken off
   */
  double misfit(double[] white) {
    double sum = 0;
    for (int i = 0; i < n; i++) {
      double left = whitener.columnTimes(1 + place[i], white, i);
      sum += spread[place[i]] * left * left;
    }
    return Math.sqrt(sum / n);
  }
}
