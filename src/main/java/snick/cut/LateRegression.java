package snick.cut;

/**
 * Regression on the late readings, given what the early ones tell about the loading at the nodes:
 * how well a filter and a break explain them, how far the break should move, and the force there.
 * The move is linearised and averaged over. In units of the noise. One thread; used again.
 */
final class LateRegression {
  /** How far the break may lie from where it is looked for, variance in periods squared. */
  private static final double SHIFT_VARIANCE = 0.3 * 0.3;

  private final double[] white = new double[RampWindow.LATE];
  private LateView view;
  private double[] means;

  /** The force at the break as the early readings tell it, noises. */
  private double forceAhead;

  /** How far the loading falls at the break, noises: a later break adds so much of the slide. */
  private double drop;

  private double slideSquare;
  private double slideWhite;

  /** Weight of the move in the inverse covariance of the readings. */
  private double kappa;

  private double logEvidence;

  /**
   * Fits; false if the readings leave nothing to fit.
   *
   * @param nodeMeans values of the loading at the nodes, noises
   */
  boolean fit(RampWindow w, LateView seen, double[] nodeMeans) {
    view = seen;
    means = nodeMeans;
    if (view.n < 2) {
      return false;
    }
    view.whiten(w.late, w.after, means, white);
    forceAhead = Lower.dot(view.forceShare, means);
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
    double rateMean = Lower.dot(view.rateShare, means) + rateWithWhite - shift() * rateSlide;
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
