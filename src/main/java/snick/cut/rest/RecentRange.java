package snick.cut.rest;

/**
 * Least and greatest of the last few values. One thread; allocates nothing once made. Each is
 * looked for anew only when it leaves.
 */
final class RecentRange {
  private final double[] values;
  private int size;
  private int next;
  private double least;
  private double greatest;

  RecentRange(int capacity) {
    values = new double[capacity];
    clear();
  }

  /** Adds a value; if there are as many as are kept, the oldest goes. */
  void add(double value) {
    boolean full = size == values.length;
    double gone = values[next];
    values[next] = value;
    next = next + 1 == values.length ? 0 : next + 1;
    size = full ? size : size + 1;
    least = full && gone == least ? leastOfAll() : lesser(least, value);
    greatest = full && gone == greatest ? greatestOfAll() : greater(greatest, value);
  }

  private double leastOfAll() {
    double found = values[0];
    for (int i = 1; i < size; i++) {
      found = lesser(found, values[i]);
    }
    return found;
  }

  private double greatestOfAll() {
    double found = values[0];
    for (int i = 1; i < size; i++) {
      found = greater(found, values[i]);
    }
    return found;
  }

  private static double lesser(double a, double b) {
    return a < b ? a : b;
  }

  private static double greater(double a, double b) {
    return a > b ? a : b;
  }

  /** Moves every value by {@code step}. */
  void shift(double step) {
    for (int i = 0; i < size; i++) {
      values[i] += step;
    }
    least += step;
    greatest += step;
  }

  void clear() {
    size = 0;
    next = 0;
    least = Double.POSITIVE_INFINITY;
    greatest = Double.NEGATIVE_INFINITY;
  }

  /** The least value; only if there is one. */
  double least() {
    return least;
  }

  /** The greatest value; only if there is one. */
  double greatest() {
    return greatest;
  }
}
