package snick.cut;

/**
 * Median of the last readings: of five, so that two spikes in a row do not move it; of three at
 * slow rates, where a whole loading may be a few readings. One thread; allocates nothing once made.
 */
final class RunningMedian {
  /** From this period on a knock or a brief loading may be one or two readings. */
  private static final double SLOW_PERIOD_NANOS = 20e6;

  private double a;
  private double b;
  private double c;
  private double d;
  private boolean three;

  /** Whether one or two readings may be a loading, ns between readings. */
  static boolean isSlow(double periodNanos) {
    return periodNanos >= SLOW_PERIOD_NANOS;
  }

  /** Begins anew, at zero. */
  void restart(double periodNanos) {
    three = isSlow(periodNanos);
    a = 0;
    b = 0;
    c = 0;
    d = 0;
  }

  /** How many readings the median lags behind. */
  int delay() {
    return three ? 1 : 2;
  }

  /** Adds a reading; the median of it and those before. */
  double add(double e) {
    double median = three ? ofThree(c, d, e) : ofFive(a, b, c, d, e);
    a = b;
    b = c;
    c = d;
    d = e;
    return median;
  }

  /** The median of three that remain when the least and the greatest of four are left out. */
  private static double ofFive(double p, double q, double r, double s, double t) {
    double least = greater(lesser(p, q), lesser(r, s));
    double greatest = lesser(greater(p, q), greater(r, s));
    return ofThree(least, greatest, t);
  }

  static double ofThree(double p, double q, double r) {
    return greater(lesser(p, q), lesser(greater(p, q), r));
  }

  private static double lesser(double p, double q) {
    return p < q ? p : q;
  }

  private static double greater(double p, double q) {
    return p > q ? p : q;
  }
}
