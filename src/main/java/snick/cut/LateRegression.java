package snick.cut;

/**
 * Regression on the late readings, given what the early ones tell about the loading at the nodes:
 * how well a filter and a break explain them, how far the break should move, and the force there.
 * The move is linearised and averaged over. In units of the noise. One thread; used again.
 */
final class LateRegression {
  /** How far the break may lie from where it is looked for, variance in periods squared. */
  private static final double SHIFT_VARIANCE = 0.3 * 0.3;

  private static final double RING_SHARE = 4;

  private final double[] matrix = new double[RampWindow.LATE * RampWindow.LATE];
  private final double[] off = new double[RampWindow.LATE];
  private final double[] slide = new double[RampWindow.LATE];
  private final double[] spread = new double[RampWindow.LATE];
  private final double[] white = new double[RampWindow.LATE];
  private final double[] column = new double[RampWindow.LATE];
  private final int[] place = new int[RampWindow.LATE];
  private int n;
  private LateView view;
  private double logEvidence;
  private double shift;

  /**
   * Fits; false if the readings leave nothing to fit.
   *
   * @param misfit factor on the deviation of the late readings, 1 or more
   */
  boolean fit(
      RampWindow w, LateView seen, int phase, Loading loading, double ringing, double misfit) {
    view = seen;
    gather(w, loading, loading.forceAt(phase), ringing, misfit);
    for (int i = 0; i < n; i++) {
      for (int j = 0; j <= i; j++) {
        matrix[i * n + j] =
            view.covariance(place[i], place[j]) + SHIFT_VARIANCE * slide[i] * slide[j];
      }
      matrix[i * n + i] += spread[i];
      white[i] = off[i];
    }
    if (n < 2 || !Lower.factor(matrix, n)) {
      return false;
    }
    Lower.forward(matrix, n, white);
    double square = 0;
    for (int i = 0; i < n; i++) {
      square += white[i] * white[i];
      column[i] = slide[i];
    }
    logEvidence = -0.5 * square - Lower.logDiagonal(matrix, n);
    Lower.forward(matrix, n, column);
    shift = SHIFT_VARIANCE * inner(column, white);
    return true;
  }

  private void gather(RampWindow w, Loading loading, double force, double ringing, double misfit) {
    n = 0;
    for (int i = 0; i < RampWindow.LATE; i++) {
      if (!w.lateUsable[i]) {
        continue;
      }
      double gone = 1 - view.loaded(i);
      off[n] = w.late[i] - w.after * gone - view.seen(i, loading.means);
      slide[n] = (force - w.after) * view.density(i);
      double ring = RING_SHARE * ringing * Math.max(0, Math.min(1, gone));
      spread[n] = misfit * misfit * (1 + ring);
      place[n] = i;
      n++;
    }
  }

  private double inner(double[] a, double[] b) {
    double sum = 0;
    for (int i = 0; i < n; i++) {
      sum += a[i] * b[i];
    }
    return sum;
  }

  double logEvidence() {
    return logEvidence;
  }

  /** How much later than looked for the break lies, periods. */
  double shift() {
    return shift;
  }

  /** Root mean square of what is left of the late readings over their deviation. */
  double misfit() {
    System.arraycopy(white, 0, column, 0, n);
    Lower.backward(matrix, n, column);
    double sum = 0;
    for (int i = 0; i < n; i++) {
      sum += spread[i] * column[i] * column[i];
    }
    return Math.sqrt(sum / n);
  }

  /** The force at the break of the last fit. */
  CrossingWeight force(LateNodes nodes, int phase, Loading loading) {
    double[] share = nodes.sharesAt(phase);
    double[] slopeShare = nodes.slopeSharesAt(phase);
    double rate = whitened(slopeShare, 0);
    double priorRate = dot(slopeShare, loading.means);
    double rateMean = priorRate + inner(column, white);
    double rateVariance = loading.variance(slopeShare, slopeShare) - rate;
    double[] rateColumn = column.clone();
    double forceGain = whitened(share, rateMean);
    double forceMean = dot(share, loading.means) + inner(column, white);
    double forceVariance =
        loading.variance(share, share) + SHIFT_VARIANCE * rateMean * rateMean - forceGain;
    double covariance = loading.variance(share, slopeShare) - inner(column, rateColumn);
    return CrossingWeight.of(
        forceMean, Math.max(0, forceVariance), rateMean, Math.max(0, rateVariance), covariance);
  }

  /** Puts the covariance of a form with the readings, whitened, in the column; its square. */
  private double whitened(double[] form, double slope) {
    for (int i = 0; i < n; i++) {
      column[i] = SHIFT_VARIANCE * slope * slide[i] + view.with(place[i], form);
    }
    Lower.forward(matrix, n, column);
    return inner(column, column);
  }

  private static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int k = 0; k < a.length; k++) {
      sum += a[k] * b[k];
    }
    return sum;
  }
}
