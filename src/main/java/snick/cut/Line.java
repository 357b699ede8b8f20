package snick.cut;

/** Least-squares line through usable samples. */
final class Line {
  private final double meanTime;
  private final double meanReading;
  private final double slope;
  private final double spread;
  private final int n;

  private Line(double meanTime, double meanReading, double slope, double spread, int n) {
    this.meanTime = meanTime;
    this.meanReading = meanReading;
    this.slope = slope;
    this.spread = spread;
    this.n = n;
  }

  static Line through(Samples s, int from, int to) {
    int n = 0;
    double time = 0;
    double reading = 0;
    for (int i = from; i < to; i++) {
      if (s.usable[i]) {
        n++;
        time += s.time[i];
        reading += s.x[i];
      }
    }
    double meanTime = n == 0 ? 0 : time / n;
    double meanReading = n == 0 ? 0 : reading / n;
    double up = 0;
    double down = 0;
    for (int i = from; i < to; i++) {
      if (s.usable[i]) {
        up += (s.time[i] - meanTime) * (s.x[i] - meanReading);
        down += (s.time[i] - meanTime) * (s.time[i] - meanTime);
      }
    }
    return new Line(meanTime, meanReading, down > 0 ? up / down : 0, down, n);
  }

  double at(double time) {
    return meanReading + slope * (time - meanTime);
  }

  /** Counts per period. */
  double slope() {
    return slope;
  }

  /** Standard uncertainty of the line at a time, given that of one reading. */
  double uncertaintyAt(double time, double noise) {
    double lever = spread > 0 ? (time - meanTime) * (time - meanTime) / spread : 1;
    return noise * Math.sqrt(1.0 / Math.max(1, n) + lever);
  }
}
