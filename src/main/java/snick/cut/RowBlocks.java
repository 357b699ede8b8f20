package snick.cut;

/**
 * A matrix laid out for products with vectors: its rows lie eight by eight, so that eight sums grow
 * side by side, for a sum alone waits for each of its additions. The order within each sum is that
 * of the columns. Rows of zeros fill up the last block.
 */
final class RowBlocks {
  private static final int BLOCK = 8;

  private final int rows;
  private final int columns;
  private final double[] weights;

  /** A matrix of zeros. */
  RowBlocks(int rows, int columns) {
    this.rows = sums(rows);
    this.columns = columns;
    this.weights = new double[this.rows * columns];
  }

  /** A matrix that lies row by row. */
  static RowBlocks of(double[] matrix, int columns) {
    RowBlocks blocks = new RowBlocks(matrix.length / columns, columns);
    for (int i = 0; i < matrix.length; i++) {
      blocks.set(i / columns, i % columns, matrix[i]);
    }
    return blocks;
  }

  /** The lower triangle of a matrix that lies row by row, zeros above. */
  static RowBlocks lower(double[] matrix, int size) {
    RowBlocks lower = new RowBlocks(size, size);
    for (int i = 0; i < size; i++) {
      for (int j = 0; j <= i; j++) {
        lower.set(i, j, matrix[i * size + j]);
      }
    }
    return lower;
  }

  /** How many sums there are for so many rows. */
  static int sums(int rows) {
    return (rows + BLOCK - 1) / BLOCK * BLOCK;
  }

  /** How many sums there are. */
  int sums() {
    return rows;
  }

  private int place(int row, int column) {
    return (row / BLOCK * columns + column) * BLOCK + row % BLOCK;
  }

  void set(int row, int column, double weight) {
    weights[place(row, column)] = weight;
  }

  /** Sets a column to as many values as there are sums. */
  void setColumn(int column, double[] values) {
    for (int row = 0; row < rows; row += BLOCK) {
      System.arraycopy(values, row, weights, place(row, column), BLOCK);
    }
  }

  /** Sets a column to one of another matrix with as many rows. */
  void setColumn(int column, RowBlocks other, int from) {
    for (int row = 0; row < rows; row += BLOCK) {
      System.arraycopy(other.weights, other.place(row, from), weights, place(row, column), BLOCK);
    }
  }

  double at(int row, int column) {
    return weights[place(row, column)];
  }

  /** The product with a vector. */
  double[] times(double[] x) {
    double[] sums = new double[rows];
    add(x, 0, sums);
    return sums;
  }

  /**
   * Adds to each sum its row times a vector.
   *
   * @param x holds the vector
   * @param from where it begins there
   * @param sums at least {@link #sums}
   */
  void add(double[] x, int from, double[] sums) {
    for (int row = 0; row < rows; row += BLOCK) {
      add(row, columns, x, from, sums, row);
    }
  }

  /** The same for a block of rows, which begins with this one, and so many columns. */
  private void add(int row, int width, double[] x, int from, double[] sums, int to) {
    double s0 = sums[to];
    double s1 = sums[to + 1];
    double s2 = sums[to + 2];
    double s3 = sums[to + 3];
    double s4 = sums[to + 4];
    double s5 = sums[to + 5];
    double s6 = sums[to + 6];
    double s7 = sums[to + 7];
    int at = row * columns;
    for (int j = from; j < from + width; j++) {
      double factor = x[j];
      s0 += weights[at] * factor;
      s1 += weights[at + 1] * factor;
      s2 += weights[at + 2] * factor;
      s3 += weights[at + 3] * factor;
      s4 += weights[at + 4] * factor;
      s5 += weights[at + 5] * factor;
      s6 += weights[at + 6] * factor;
      s7 += weights[at + 7] * factor;
      at += BLOCK;
    }
    sums[to] = s0;
    sums[to + 1] = s1;
    sums[to + 2] = s2;
    sums[to + 3] = s3;
    sums[to + 4] = s4;
    sums[to + 5] = s5;
    sums[to + 6] = s6;
    sums[to + 7] = s7;
  }

  /** The part of a column from a row on times that of a vector. */
  double columnTimes(int column, double[] x, int fromRow) {
    double sum = 0;
    for (int row = fromRow; row < x.length; row++) {
      sum += at(row, column) * x[row];
    }
    return sum;
  }

  /**
   * Squared length of a lower triangle's product with a vector; what has been summed up as soon as
   * it passes a limit.
   */
  double squareOfLower(double[] x, int from, double limit) {
    double square = 0;
    for (int row = 0; row < rows && !(square > limit); row += BLOCK) {
      double[] sums = new double[BLOCK];
      add(row, Math.min(columns, row + BLOCK), x, from, sums, 0);
      for (double sum : sums) {
        square += sum * sum;
      }
    }
    return square;
  }
}
