package snick.cut.rest;

/** The last three values, finite, and their median. One thread. */
final class MedianOfThree {
  private double first;
  private double second;
  private double third;
  private int size;

  void add(double value) {
    first = second;
    second = third;
    third = value;
    size = Math.min(3, size + 1);
  }

  /** Puts this in the place of every value. */
  void replaceAll(double value) {
    first = value;
    second = value;
    third = value;
  }

  /** Moves every value by {@code step}. */
  void shift(double step) {
    first += step;
    second += step;
    third += step;
  }

  void clear() {
    size = 0;
  }

  /** The middle value, or the mean of two; only if there is a value. */
  double median() {
    if (size < 3) {
      return 0.5 * (size == 2 ? second + third : third + third);
    }
    return Math.max(Math.min(first, second), Math.min(Math.max(first, second), third));
  }
}
