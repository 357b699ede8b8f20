package snick.cut;

/** Says how long the reading has stood within a band. */
final class FlatWatch {
  private double band;
  private double lowest;
  private double highest;
  private long sinceNanos;
  private long nowNanos;
  private boolean any;

  void restart(double bandCounts) {
    band = bandCounts;
    any = false;
  }

  void add(long nanos, double counts) {
    double low = any && lowest < counts ? lowest : counts;
    double high = any && highest > counts ? highest : counts;
    if (!any || high - low > 2 * band) {
      low = counts;
      high = counts;
      sinceNanos = nanos;
    }
    any = true;
    lowest = low;
    highest = high;
    nowNanos = nanos;
  }

  boolean flatFor(long nanos) {
    return any && nowNanos - sinceNanos >= nanos;
  }

  /** Middle of the band stood in, counts. */
  double level() {
    return 0.5 * (lowest + highest);
  }
}
