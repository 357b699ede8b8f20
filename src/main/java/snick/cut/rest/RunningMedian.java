package snick.cut.rest;

/**
 * Median of the last readings: of five, so that two spikes in a row do not move it; of three at
 * slow rates, where a whole loading may be a few readings. One thread; allocates nothing once made.
 */
public final class RunningMedian {
  /** From this period on a knock or a brief loading may be one or two readings. */
  private static final double SLOW_PERIOD_NANOS = 20e6;

  private int a;
  private int b;
  private int c;
  private int d;
  private int e;
  private double middle;
  private boolean three;

  /** Whether one or two readings may be a loading, ns between readings. */
  public static boolean isSlow(double periodNanos) {
    return periodNanos >= SLOW_PERIOD_NANOS;
  }

  /** How many readings the median lags behind. */
  public static int delay(double periodNanos) {
    return isSlow(periodNanos) ? 1 : 2;
  }

  /** The reading in the middle of those that the last median is of. */
  public int centre() {
    return three ? d : c;
  }

  /** Median of how far they lie from their median. */
  public double spread() {
    double p = Math.abs(c - middle);
    double q = Math.abs(d - middle);
    double r = Math.abs(e - middle);
    return three ? ofThree(p, q, r) : ofFive(Math.abs(a - middle), Math.abs(b - middle), p, q, r);
  }

  /** Begins anew, as if all readings had been this. */
  public void restart(double periodNanos, int counts) {
    three = isSlow(periodNanos);
    a = counts;
    b = counts;
    c = counts;
    d = counts;
    e = counts;
    middle = counts;
  }

  /** Adds a reading; the median of it and those before. */
  public int add(int counts) {
    a = b;
    b = c;
    c = d;
    d = e;
    e = counts;
    int median = three ? ofThree(c, d, e) : ofFive(a, b, c, d, e);
    middle = median;
    return median;
  }

  /** The median of three that remain when the least and the greatest of four are left out. */
  private static int ofFive(int p, int q, int r, int s, int t) {
    int least = Math.max(Math.min(p, q), Math.min(r, s));
    int greatest = Math.min(Math.max(p, q), Math.max(r, s));
    return ofThree(least, greatest, t);
  }

  private static int ofThree(int p, int q, int r) {
    return Math.max(Math.min(p, q), Math.min(Math.max(p, q), r));
  }

  /** The same of the readings beside reading i and itself; it itself at the ends. */
  public static double around(double[] x, int i, int delay) {
    if (i < delay || i + delay >= x.length) {
      return x[i];
    }
    return delay == 1
        ? ofThree(x[i - 1], x[i], x[i + 1])
        : ofFive(x[i - 2], x[i - 1], x[i], x[i + 1], x[i + 2]);
  }

  private static double ofFive(double p, double q, double r, double s, double t) {
    double least = greater(lesser(p, q), lesser(r, s));
    double greatest = lesser(greater(p, q), greater(r, s));
    return ofThree(least, greatest, t);
  }

  public static double ofThree(double p, double q, double r) {
    return greater(lesser(p, q), lesser(greater(p, q), r));
  }

  private static double lesser(double p, double q) {
    return p < q ? p : q;
  }

  private static double greater(double p, double q) {
    return p > q ? p : q;
  }
}
