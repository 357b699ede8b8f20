package snick.cut;

/** Cholesky factor of a symmetric matrix, row by row in one array of {@code size × size}. */
final class Lower {
  private Lower() {}

  /**
   * Replaces the lower triangle by its factor (Cholesky–Banachiewicz); false if the matrix is not
   * positive definite.
   */
  static boolean factor(double[] a, int size) {
    for (int i = 0; i < size; i++) {
      int row = i * size;
      for (int j = 0; j < i; j++) {
        int other = j * size;
        double sum = a[row + j];
        for (int k = 0; k < j; k++) {
          sum -= a[row + k] * a[other + k];
        }
        a[row + j] = sum / a[other + j];
      }
      double rest = a[row + i];
      for (int k = 0; k < i; k++) {
        rest -= a[row + k] * a[row + k];
      }
      if (!(rest > 0)) {
        return false;
      }
      a[row + i] = Math.sqrt(rest);
    }
    return true;
  }

  /** Logarithm of the product of the diagonal. */
  static double logDiagonal(double[] l, int size) {
    double sum = 0;
    for (int i = 0; i < size; i++) {
      sum += Math.log(l[i * size + i]);
    }
    return sum;
  }

  /** The inverse of a factor, lower like it. */
  static double[] inverse(double[] l, int size) {
    double[] inverse = new double[size * size];
    for (int j = 0; j < size; j++) {
      inverse[j * size + j] = 1 / l[j * size + j];
      for (int i = j + 1; i < size; i++) {
        double sum = 0;
        for (int k = j; k < i; k++) {
          sum -= l[i * size + k] * inverse[k * size + j];
        }
        inverse[i * size + j] = sum / l[i * size + i];
      }
    }
    return inverse;
  }

  static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int k = 0; k < a.length; k++) {
      sum += a[k] * b[k];
    }
    return sum;
  }
}
