package snick.cut;

/**
 * Least and greatest of the last few values. One thread; allocates nothing once made. They are
 * looked for anew only when one of them leaves.
 */
final class RecentRange {
  private final double[] values;
  private int size;
  private int next;
  private double least;
  private double greatest;

  RecentRange(int capacity) {
    values = new double[capacity];
  }

  /** Adds a value; if there are as many as are kept, the oldest goes. */
  void add(double value) {
    boolean full = size == values.length;
    double gone = values[next];
    values[next] = value;
    next = next + 1 == values.length ? 0 : next + 1;
    if (!full) {
      size++;
    }
    if (size == 1 || (full && (gone == least || gone == greatest))) {
      lookAnew();
    } else {
      least = value < least ? value : least;
      greatest = value > greatest ? value : greatest;
    }
  }

  private void lookAnew() {
    least = values[0];
    greatest = values[0];
    for (int i = 1; i < size; i++) {
      least = values[i] < least ? values[i] : least;
      greatest = values[i] > greatest ? values[i] : greatest;
    }
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
