package snick.cut;

import java.util.Optional;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.factory.DecompositionFactory_DDRM;
import org.ejml.interfaces.decomposition.CholeskyDecomposition_F64;

/**
 * Linear regression with a normal prior of zero mean on each coefficient: posterior of one linear
 * form and the evidence (marginal likelihood) of the prior.
 */
final class NormalEquations {
  private final int size;
  private final double[] gram;
  private final double[] right;
  private double square;
  private double logSpread;

  NormalEquations(int size) {
    this.size = size;
    this.gram = new double[size * size];
    this.right = new double[size];
  }

  /** Adds one observation with its standard deviation. */
  void add(double[] row, double observed, double deviation) {
    double weight = 1 / (deviation * deviation);
    for (int i = 0; i < size; i++) {
      double scaled = weight * row[i];
      right[i] += scaled * observed;
      for (int j = 0; j <= i; j++) {
        gram[i * size + j] += scaled * row[j];
      }
    }
    square += weight * observed * observed;
    logSpread += Math.log(deviation);
  }

  /** Posterior under these prior variances; empty if they are not numerically definite. */
  Optional<Posterior> posterior(double[] priorVariances) {
    DMatrixRMaj a = new DMatrixRMaj(size, size);
    double logPrior = 0;
    for (int i = 0; i < size; i++) {
      for (int j = 0; j <= i; j++) {
        double g = gram[i * size + j] + (i == j ? 1 / priorVariances[i] : 0);
        a.data[i * size + j] = g;
        a.data[j * size + i] = g;
      }
      logPrior += Math.log(priorVariances[i]);
    }
    CholeskyDecomposition_F64<DMatrixRMaj> cholesky = DecompositionFactory_DDRM.chol(size, true);
    if (!cholesky.decompose(a)) {
      return Optional.empty();
    }
    DMatrixRMaj l = cholesky.getT(null);
    double[] z = forward(l, right);
    double logDeterminant = 0;
    for (int i = 0; i < size; i++) {
      logDeterminant += 2 * Math.log(l.get(i, i));
    }
    double evidence = -0.5 * (logPrior + logDeterminant + square - dot(z, z)) - logSpread;
    return Optional.of(new Posterior(l, z, evidence));
  }

  /** Posterior of the coefficients. */
  static final class Posterior {
    private final DMatrixRMaj lower;
    private final double[] z;
    private final double logEvidence;

    private Posterior(DMatrixRMaj lower, double[] z, double logEvidence) {
      this.lower = lower;
      this.z = z;
      this.logEvidence = logEvidence;
    }

    /** Logarithm of the evidence, up to a constant. */
    double logEvidence() {
      return logEvidence;
    }

    /** The form in coordinates in which the posterior has unit covariance. */
    double[] whitened(double[] form) {
      return forward(lower, form);
    }

    /** Posterior mean of a whitened form. */
    double mean(double[] whitened) {
      return dot(whitened, z);
    }

    double[] coefficients() {
      return backward(lower, z);
    }
  }

  private static double[] forward(DMatrixRMaj l, double[] b) {
    int size = b.length;
    double[] z = new double[size];
    for (int i = 0; i < size; i++) {
      double sum = b[i];
      for (int j = 0; j < i; j++) {
        sum -= l.get(i, j) * z[j];
      }
      z[i] = sum / l.get(i, i);
    }
    return z;
  }

  private static double[] backward(DMatrixRMaj l, double[] z) {
    int size = z.length;
    double[] x = new double[size];
    for (int i = size - 1; i >= 0; i--) {
      double sum = z[i];
      for (int j = i + 1; j < size; j++) {
        sum -= l.get(j, i) * x[j];
      }
      x[i] = sum / l.get(i, i);
    }
    return x;
  }

  static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      sum += a[i] * b[i];
    }
    return sum;
  }
}
