package snick.cut;

import java.util.Arrays;

/**
 * One event's readings made ready for analysis: above zero, positive in loading direction, time in
 * sampling periods since the first. Where no sample is missing the time stamps are smoothed by a
 * straight line, for stamps jitter and converters do not.
 */
final class Samples {
  final double[] x;
  final double[] time;
  final boolean[] usable;
  final double periodNanos;
  final long startNanos;

  private Samples(int n, double periodNanos, long startNanos) {
    this.x = new double[n];
    this.time = new double[n];
    this.usable = new boolean[n];
    this.periodNanos = periodNanos;
    this.startNanos = startNanos;
  }

  static Samples of(SampleLog log, double zero, int polarity, double periodNanos, boolean gaps) {
    int n = log.size();
    Samples s = new Samples(n, periodNanos, log.nanos(0));
    for (int i = 0; i < n; i++) {
      s.x[i] = polarity * (log.counts(i) - zero);
      s.usable[i] = !log.overrange(i);
      s.time[i] = (log.nanos(i) - s.startNanos) / periodNanos;
    }
    if (!gaps) {
      s.smoothTime();
    }
    return s;
  }

  private void smoothTime() {
    int n = time.length;
    if (n < 8) {
      return;
    }
    double meanIndex = 0.5 * (n - 1);
    double meanTime = Arrays.stream(time).average().orElse(0);
    double up = 0;
    double down = 0;
    for (int i = 0; i < n; i++) {
      up += (i - meanIndex) * (time[i] - meanTime);
      down += (i - meanIndex) * (i - meanIndex);
    }
    double slope = up / down;
    double worst = 0;
    for (int i = 0; i < n; i++) {
      worst = Math.max(worst, Math.abs(time[i] - meanTime - slope * (i - meanIndex)));
    }
    if (worst < 1.5 && slope > 0) {
      for (int i = 0; i < n; i++) {
        time[i] = meanTime + slope * (i - meanIndex);
      }
    }
  }

  /** The same with each reading replaced by the median of itself and its neighbours. */
  Samples medianOfThree() {
    Samples calm = new Samples(x.length, periodNanos, startNanos);
    System.arraycopy(time, 0, calm.time, 0, x.length);
    System.arraycopy(usable, 0, calm.usable, 0, x.length);
    System.arraycopy(x, 0, calm.x, 0, x.length);
    for (int i = 1; i + 1 < x.length; i++) {
      double low = Math.min(x[i - 1], x[i]);
      double high = Math.max(x[i - 1], x[i]);
      calm.x[i] = Math.max(low, Math.min(high, x[i + 1]));
    }
    return calm;
  }

  int size() {
    return x.length;
  }

  /** Device time of a moment, ns. */
  long nanosAt(double periods) {
    return startNanos + Math.round(periods * periodNanos);
  }

  /** Index of the largest usable reading in {@code [from, to)}; {@code from} if none is usable. */
  int largest(int from, int to) {
    int best = from;
    for (int i = from; i < to; i++) {
      if (usable[i] && (!usable[best] || x[i] > x[best])) {
        best = i;
      }
    }
    return best;
  }

  /** Time at which the line between samples i and i+1 crosses the level. */
  double crossing(int i, double level) {
    double rise = x[i + 1] - x[i];
    double share = rise == 0 ? 0.5 : (level - x[i]) / rise;
    return time[i] + Math.max(0, Math.min(1, share)) * (time[i + 1] - time[i]);
  }
}
