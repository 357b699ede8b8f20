package snick.cut.estimate;

import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;
import org.ejml.dense.row.decomposition.chol.CholeskyDecompositionInner_DDRM;

/**
 * One way in which a loading may go on: motion of one kind and strength, wander of one strength.
 * Holds the inverse of the Cholesky factor of the readings' covariance, row by row: times the
 * readings it gives how far each lies from what those before led to expect, in standard deviations.
 * Strengths in noises. Immutable.
 *
 * <p>Gaussian process regression: Rasmussen and Williams, Gaussian Processes for Machine Learning,
 * 2006, chapter 2 (citation from memory).
 */
final class Hypothesis {
  /** The line is known beforehand to so many noises at the last reading, and as many in 0.1 s. */
  private static final double LINE_NOISES = 1e3;

  private static final double TENTH_SECONDS = 0.1;

  private final CourseModel model;
  private final Motion motion;
  private final double strength;
  private final double wander;
  private final double oldestSeconds;
  private final double[] whitening;
  private final double halfLogDeterminant;
  private final double logPrior;

  Hypothesis(
      CourseModel model,
      Motion motion,
      double[][] correlations,
      double strength,
      double wanderAtTenth,
      double logPrior) {
    this.logPrior = logPrior;
    this.model = model;
    this.motion = motion;
    this.strength = strength * strength;
    this.wander = 3 * wanderAtTenth * wanderAtTenth / StrictMath.pow(TENTH_SECONDS, 3);
    int n = model.bins();
    oldestSeconds = n == 0 ? 0 : model.seconds(0);
    DMatrixRMaj covariance = new DMatrixRMaj(n, n);
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        double trend = trend(model.seconds(i), model.seconds(j));
        covariance.set(i, j, this.strength * correlations[i][j] + trend);
      }
      covariance.add(i, i, 1.0 / model.readings(i));
    }
    CholeskyDecompositionInner_DDRM cholesky = new CholeskyDecompositionInner_DDRM(true);
    if (!cholesky.decompose(covariance)) {
      throw new IllegalStateException("covariance of " + n + " bins has no Cholesky factor");
    }
    DMatrixRMaj inverse = cholesky.getT(null);
    double half = 0;
    for (int i = 0; i < n; i++) {
      half += StrictMath.log(inverse.get(i, i));
    }
    halfLogDeterminant = half;
    CommonOps_DDRM.invert(inverse);
    whitening = new double[n * (n + 1) / 2];
    for (int i = 0, at = 0; i < n; i++) {
      for (int j = 0; j <= i; j++) {
        whitening[at++] = inverse.get(i, j);
      }
    }
  }

  /** Covariance of line and wander at two times after the last reading, s. */
  private double trend(double a, double b) {
    double line = LINE_NOISES * LINE_NOISES * (1 + a * b / (TENTH_SECONDS * TENTH_SECONDS));
    double least = Math.min(a, b) - oldestSeconds;
    double most = Math.max(a, b) - oldestSeconds;
    return line + wander * least * least * (0.5 * most - least / 6);
  }

  Motion motion() {
    return motion;
  }

  /** Natural logarithm of its weight before any reading. */
  double logPrior() {
    return logPrior;
  }

  /** Variance of the fixture's own swinging, noises squared; 0 for a motion of the hand. */
  double swingVariance() {
    return motion.ofFixture() ? strength : 0;
  }

  double halfLogDeterminant() {
    return halfLogDeterminant;
  }

  /** Covariance of each bin with the force so many seconds after the last reading. */
  double[] across(double seconds, double[] motionAcross, double gain) {
    double[] across = new double[model.bins()];
    for (int i = 0; i < across.length; i++) {
      across[i] = strength * gain * motionAcross[i] + trend(seconds, model.seconds(i));
    }
    return across;
  }

  /** Covariance of the force at two times after the last reading. */
  double prior(double a, double b, double gain) {
    double same = motion == Motion.NONE ? 0 : motion.correlation(a - b);
    return strength * gain * gain * same + trend(a, b);
  }

  /** Each element as far from what those before led to expect, in standard deviations. */
  double[] whiten(double[] of, double scale) {
    double[] white = new double[of.length];
    for (int i = 0, at = 0; i < white.length; i++) {
      double sum = 0;
      for (int j = 0; j <= i; j++) {
        sum += whitening[at++] * of[j];
      }
      white[i] = scale * sum;
    }
    return white;
  }
}
