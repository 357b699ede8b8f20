package snick.cut;

import java.util.List;

/**
 * A linear-phase filter as seen at the converter's output: {@code order} moving averages of {@code
 * width} output periods each, one after the other (a B-spline), centred, its delay left out.
 */
record Kernel(int order, double width) {
  /** The filters tried: one long average, or cascades as converters have them. */
  static final List<Kernel> FAMILY =
      List.of(
          new Kernel(1, 4),
          new Kernel(4, 1),
          new Kernel(3, 1),
          new Kernel(2, 1),
          new Kernel(1, 1),
          new Kernel(5, 1),
          new Kernel(1, 2),
          new Kernel(1, 3),
          new Kernel(2, 2));

  private static final double[] FACTORIALS = {1, 1, 2, 6, 24};

  /** Half the longest span in the family, periods. */
  static final double LONGEST_HALF = 2.5;

  /** Whether four periods are so long that hand tremor within them goes unseen. */
  static boolean filterOutlastsTremor(double periodNanos) {
    return 4 * periodNanos > 100e6;
  }

  /** Half its span, periods. */
  double half() {
    return 0.5 * order * width;
  }

  /** Second central moment, periods squared. */
  double variance() {
    return order * width * width / 12;
  }

  /** Weight per period at a distance from the centre, in periods. */
  double density(double distance) {
    double x = distance / width + 0.5 * order;
    if (!(x > 0 && x < order)) {
      return 0;
    }
    double sum = 0;
    double binomial = 1;
    for (int j = 0; j <= order && x - j > 0; j++) {
      sum += binomial * power(x - j, order - 1);
      binomial *= -(double) (order - j) / (j + 1);
    }
    return sum / FACTORIALS[order - 1] / width;
  }

  private static double power(double base, int exponent) {
    double product = 1;
    for (int i = 0; i < exponent; i++) {
      product *= base;
    }
    return product;
  }

  /** Gain for a sinusoid of this frequency, in cycles per period. */
  double gain(double frequency) {
    double x = Math.PI * frequency * width;
    return x < 1e-9 ? 1 : Math.pow(Math.sin(x) / x, order);
  }
}
