package snick.cut.rest;

/** Says how long the reading has stood within a band. */
public final class FlatWatch {
  private double width;
  private double lowest;
  private double highest;
  private long sinceNanos;
  private long nowNanos;

  /** Nothing is known yet: the first reading will begin a band of this to either side, finite. */
  public void restart(double bandCounts) {
    width = 2 * bandCounts;
    lowest = Double.NEGATIVE_INFINITY;
    highest = Double.POSITIVE_INFINITY;
    sinceNanos = nowNanos;
  }

  public void add(long nanos, double counts) {
    nowNanos = nanos;
    lowest = counts < lowest ? counts : lowest;
    highest = counts > highest ? counts : highest;
    if (highest - lowest > width) {
      lowest = counts;
      highest = counts;
      sinceNanos = nanos;
    }
  }

  public boolean flatFor(long nanos) {
    return nowNanos - sinceNanos >= nanos;
  }

  /** Middle of the band stood in, counts. */
  public double level() {
    return 0.5 * (lowest + highest);
  }
}
