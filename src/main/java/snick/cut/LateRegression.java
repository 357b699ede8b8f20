package snick.cut;

/**
 * Regression on the late readings, given what the early ones tell about the loading at the nodes:
 * how well a filter and a break explain them, how far the break should move, and the force there.
 * The move is linearised and averaged over. In units of the noise. One thread; used again.
 */
final class LateRegression {
  /** How far the break may lie from where it is looked for, variance in periods squared. */
  private static final double SHIFT_VARIANCE = 0.3 * 0.3;

  private final double[] white = new double[RowBlocks.sums(RampWindow.LATE)];

  /** What is seen: the level after the break, the late readings, the means at the nodes. */
  private final double[] seen;

  private LateView view;

  /** The force at the break as the early readings tell it, noises. */
  private double forceAhead;

  /** How far the loading falls at the break, noises: a later break adds so much of the slide. */
  private double drop;

  private double slideSquare;
  private double slideWhite;

  /** Weight of the move in the inverse covariance of the readings. */
  private double kappa;

  private double logEvidence;

  /** A regression on what so many nodes say of the loading. */
  LateRegression(int nodes) {
    seen = new double[LateView.NODES_FROM + nodes];
  }

  /**
   * Fits; false if the readings leave nothing to fit.
   *
   * @param nodeMeans holds the values of the loading at the nodes, noises
   * @param first where these begin
   */
  boolean fit(RampWindow w, LateView wanted, double[] nodeMeans, int first) {
    view = wanted;
    if (view.n < 2) {
      return false;
    }
    int nodes = seen.length - LateView.NODES_FROM;
    seen[0] = w.after;
    System.arraycopy(w.late, 0, seen, 1, RampWindow.LATE);
    System.arraycopy(nodeMeans, first, seen, LateView.NODES_FROM, nodes);
    view.whiten(seen, white);
    forceAhead = ofNodes(view.forceShare);
    drop = forceAhead - w.after;
    double slide = 0;
    double square = 0;
    for (int i = 0; i < view.n; i++) {
      slide += view.slide[i] * white[i];
      square += white[i] * white[i];
    }
    slideSquare = drop * drop * view.slideSquare;
    slideWhite = drop * slide;
    double widened = 1 + SHIFT_VARIANCE * slideSquare;
    kappa = SHIFT_VARIANCE / widened;
    double left = square - kappa * slideWhite * slideWhite;
    logEvidence = -0.5 * (left + Math.log(widened)) - view.logDiagonal;
    return true;
  }

  private double ofNodes(double[] shares) {
    double sum = 0;
    for (int k = 0; k < shares.length; k++) {
      sum += shares[k] * seen[LateView.NODES_FROM + k];
    }
    return sum;
  }

  double logEvidence() {
    return logEvidence;
  }

  /** How much later than looked for the break lies, periods. */
  double shift() {
    return kappa * slideWhite;
  }

  /** Root mean square of what is left of the late readings over their deviation. */
  double misfit() {
    double[] left = new double[view.n];
    for (int i = 0; i < left.length; i++) {
      left[i] = white[i] - shift() * drop * view.slide[i];
    }
    return view.misfit(left);
  }

  /** The force at the break of the last fit. */
  CrossingWeight force() {
    double rateWithSlide = 0;
    double rateWithWhite = 0;
    double forceWithSlide = 0;
    double forceWithWhite = 0;
    for (int i = 0; i < view.n; i++) {
      rateWithSlide += view.rate[i] * view.slide[i];
      rateWithWhite += view.rate[i] * white[i];
      forceWithSlide += view.force[i] * view.slide[i];
      forceWithWhite += view.force[i] * white[i];
    }
    double rateSlide = drop * rateWithSlide;
    double rateMean = ofNodes(view.rateShare) + rateWithWhite - shift() * rateSlide;
    double rateVariance = view.rateVariance + kappa * rateSlide * rateSlide;
    double moved = SHIFT_VARIANCE * rateMean;
    double ownSlide = drop * forceWithSlide;
    double forceSlide = ownSlide + moved * slideSquare;
    double forceMean = forceAhead + forceWithWhite + moved * slideWhite - shift() * forceSlide;
    double forceVariance =
        view.forceVariance
            + moved * (rateMean - 2 * ownSlide - moved * slideSquare)
            + kappa * forceSlide * forceSlide;
    double covariance = view.covariance - moved * rateSlide + kappa * forceSlide * rateSlide;
    return CrossingWeight.of(
        forceMean, Math.max(0, forceVariance), rateMean, Math.max(0, rateVariance), covariance);
  }
}
