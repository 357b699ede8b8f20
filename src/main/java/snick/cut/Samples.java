package snick.cut;

import java.util.Arrays;
import snick.cut.rest.RunningMedian;
import snick.cut.rest.SampleLog;

/**
 * One event's readings made ready for analysis: above zero, positive in loading direction, time in
 * sampling periods since the first. Where no sample is missing the time stamps are smoothed by a
 * straight line, for stamps jitter and converters do not.
 */
final class Samples {
  private static final double MOST_JITTER_PERIODS = 1.5;

  /** Fewer tell too little of a line. */
  private static final int LEAST_EVEN = 8;

  final double[] x;
  final double[] time;
  final boolean[] usable;
  final double periodNanos;
  final long startNanos;

  private Samples(
      double[] x, double[] time, boolean[] usable, double periodNanos, long startNanos) {
    this.x = x;
    this.time = time;
    this.usable = usable;
    this.periodNanos = periodNanos;
    this.startNanos = startNanos;
  }

  /** The readings of a log in which none is missing between those from {@code evenFrom} on. */
  static Samples of(SampleLog log, double zero, int polarity, double periodNanos, int evenFrom) {
    double[] sinceNanos = log.nanosSince(evenFrom);
    EvenTimes line = EvenTimes.through(sinceNanos);
    boolean even =
        sinceNanos.length >= LEAST_EVEN && line.near(sinceNanos, MOST_JITTER_PERIODS * periodNanos);
    long startNanos = even ? log.nanos(evenFrom) + Math.round(line.firstNanos()) : log.nanos(0);
    double stepNanos = even ? line.stepNanos() : periodNanos;
    double[] time = new double[log.size()];
    for (int i = 0; i < time.length; i++) {
      time[i] = i - evenFrom;
    }
    for (int i = 0; i < (even ? evenFrom : time.length); i++) {
      double stamped = (log.nanos(i) - startNanos) / stepNanos;
      time[i] = even ? Math.min(-1, stamped) : stamped;
    }
    double[] x = log.countsFrom(zero, polarity);
    return new Samples(x, time, log.usable(), stepNanos, startNanos);
  }

  /** Times on a straight line: that of the first sample, after its stamp, and the step. */
  private record EvenTimes(double firstNanos, double stepNanos) {
    /** The least-squares line through time stamps. */
    static EvenTimes through(double[] nanos) {
      int n = nanos.length;
      double meanIndex = 0.5 * (n - 1);
      double sum = 0;
      double up = 0;
      for (int i = 0; i < n; i++) {
        sum += nanos[i];
        up += (i - meanIndex) * nanos[i];
      }
      double stepNanos = up / (n * ((double) n * n - 1) / 12);
      return new EvenTimes(sum / n - stepNanos * 0.5 * (n - 1), stepNanos);
    }

    /** Whether it rises and all time stamps lie nearer than this. */
    boolean near(double[] nanos, double mostNanos) {
      double farthestNanos = 0;
      for (int i = 0; i < nanos.length; i++) {
        double offNanos = Math.abs(nanos[i] - firstNanos - stepNanos * i);
        farthestNanos = offNanos > farthestNanos ? offNanos : farthestNanos;
      }
      return farthestNanos < mostNanos && stepNanos > 0;
    }
  }

  /** Readings that a spike lasts at most: slow rates cannot tell two from a brief loading. */
  int longestSpike() {
    return RunningMedian.isSlow(periodNanos) ? 1 : Spikes.LONGEST;
  }

  /** The same without spikes: each reading replaced by the median of itself and its neighbours. */
  Samples calmed() {
    int delay = RunningMedian.delay(periodNanos);
    double[] calm = new double[x.length];
    for (int i = 0; i < x.length; i++) {
      calm[i] = RunningMedian.around(x, i, delay);
    }
    return new Samples(calm, time, usable, periodNanos, startNanos);
  }

  /** Index of the first reading that {@link #calmed} has neighbours enough for. */
  int firstCalmed() {
    return Math.min(RunningMedian.delay(periodNanos), x.length - 1);
  }

  int size() {
    return x.length;
  }

  /** Index of the last sample not after a time; the first if all are. */
  int indexBefore(double time) {
    int at = Arrays.binarySearch(this.time, time);
    return Math.max(0, at >= 0 ? at : -at - 2);
  }

  /** Variance beyond noise of the first samples after the fall, counts squared. */
  double ringing(double from, double after, double noise) {
    double sum = 0;
    int n = 0;
    for (int i = indexBefore(from); i < size() && time[i] < from + 8; i++) {
      if (usable[i] && time[i] > from) {
        sum += (x[i] - after) * (x[i] - after);
        n++;
      }
    }
    return n < 2 ? 0 : Math.max(0, sum / n - 2 * noise * noise);
  }

  /** Index of the sample nearest to a time. */
  int nearest(double at) {
    int i = indexBefore(at);
    return i + 1 < size() && time[i + 1] - at < at - time[i] ? i + 1 : i;
  }

  /** Reading on the line through samples i and i+1 at a time. */
  double between(int i, double at) {
    if (i + 1 >= x.length || !(time[i + 1] > time[i])) {
      return x[i];
    }
    double share = (at - time[i]) / (time[i + 1] - time[i]);
    return x[i] + Math.max(0, Math.min(1, share)) * (x[i + 1] - x[i]);
  }

  /** Times in s since the same instant as {@link #time}. */
  double[] seconds() {
    double[] seconds = new double[time.length];
    for (int i = 0; i < seconds.length; i++) {
      seconds[i] = time[i] * periodNanos / 1e9;
    }
    return seconds;
  }

  /** Device time of a moment of {@link #seconds}, ns. */
  long nanosAtSeconds(double seconds) {
    return startNanos + Math.round(seconds * 1e9);
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
