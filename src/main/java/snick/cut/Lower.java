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

  /** Solves L·x = b in place. */
  static void forward(double[] l, int size, double[] b) {
    for (int i = 0; i < size; i++) {
      int row = i * size;
      double sum = b[i];
      for (int k = 0; k < i; k++) {
        sum -= l[row + k] * b[k];
      }
      b[i] = sum / l[row + i];
    }
  }

  /** Solves Lᵀ·x = b in place. */
  static void backward(double[] l, int size, double[] b) {
    for (int i = size - 1; i >= 0; i--) {
      double sum = b[i];
      for (int k = i + 1; k < size; k++) {
        sum -= l[k * size + i] * b[k];
      }
      b[i] = sum / l[i * size + i];
    }
  }

  /** Logarithm of the product of the diagonal. */
  static double logDiagonal(double[] l, int size) {
    double sum = 0;
    for (int i = 0; i < size; i++) {
      sum += Math.log(l[i * size + i]);
    }
    return sum;
  }
}
