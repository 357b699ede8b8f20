package snick.cut;

/**
 * The loading line extrapolated to the equal-area instant of the fall. With the line ℓ fitted on
 * clean ramp samples and the deficit ℓ − y summed over the fall to a sample at t1 after it, the sum
 * equals F·σ + a·σ²/2 + a·v/2, where F is the force at the break, a the slope, σ the time from
 * break to t1 and v the variance of the filter's kernel: areas taken from sums are exact for every
 * filter with zeros at the multiples of the output rate.
 */
final class LineEstimator {
  private static final double KERNEL_VARIANCE = 0.8;
  private static final int WINDOW = 24;

  private LineEstimator() {}

  static BreakEstimate estimate(Samples s, int onset, Fall fall, double after, double noise) {
    int end = Math.max(onset + 1, fall.top() - 2);
    int begin = Math.max(Math.min(onset + 2, end - 2), end - WINDOW);
    begin = Math.max(begin, 0);
    Line line = Line.through(s, begin, end + 1);
    int last = Math.min(s.size() - 1, fall.bottom() + 2);
    double area = 0;
    for (int i = end + 1; i <= last; i++) {
      double reading = i > fall.bottom() ? after : s.x[i];
      area += line.at(s.time[i]) - (s.usable[i] ? reading : line.at(s.time[i]));
    }
    double a = line.slope();
    double top = line.at(s.time[last]) - after;
    double since = since(top, a, area - 0.5 * a * KERNEL_VARIANCE - 0.5 * top);
    double force = line.at(s.time[last] - since);
    double u = Math.hypot(line.uncertaintyAt(s.time[last] - since, noise), 0.3 * Math.abs(a));
    return new BreakEstimate(force, u, s.time[last] - since, a, 0);
  }

  /** Solves top·σ − a·σ²/2 = area for the smaller σ. */
  private static double since(double top, double a, double area) {
    double inner = top * top - 2 * a * area;
    if (!(inner > 0) || Math.abs(a) < 1e-9 * Math.abs(top)) {
      return top == 0 ? 0 : area / top;
    }
    return 2 * area / (top + Math.sqrt(inner));
  }
}
