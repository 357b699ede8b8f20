package snick.cut.rest;

/** The last three values, finite, and their median. One thread. */
final class LastThree {
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
    double low = lesser(first, second);
    double high = greater(first, second);
    return greater(low, lesser(high, third));
  }

  private static double lesser(double p, double q) {
    return chosen(p - q, p, q);
  }

  private static double greater(double p, double q) {
    return chosen(p - q, q, p);
  }

  /** By the sign of a difference, without a branch: in noise, half would be mispredicted. */
  private static double chosen(double difference, double ifNegative, double ifNot) {
    long negative = Double.doubleToRawLongBits(difference) >> (Long.SIZE - 1);
    long p = Double.doubleToRawLongBits(ifNegative);
    long q = Double.doubleToRawLongBits(ifNot);
    return Double.longBitsToDouble(q ^ ((p ^ q) & negative));
  }
}
