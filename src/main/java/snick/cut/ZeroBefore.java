package snick.cut;

import java.util.Arrays;

/**
 * Reading at rest before an event, from the rest kept before it. The newest part is left out, for
 * loading may have begun there below the level that begins an event. If the reading crept, the part
 * is taken whose level the reading fell back to.
 */
final class ZeroBefore {
  private static final double LEFT_OUT_NANOS = 100e6;
  private static final int LEFT_OUT_LEAST = 6;
  private static final double PART_NANOS = 700e6;
  private static final int PART_LEAST = 8;
  private static final double CREPT_NOISES = 3;

  private final double counts;
  private final double uncertaintyCounts;
  private final boolean crept;

  private ZeroBefore(double counts, double uncertaintyCounts, boolean crept) {
    this.counts = counts;
    this.uncertaintyCounts = uncertaintyCounts;
    this.crept = crept;
  }

  static ZeroBefore of(Event event, double periodNanos) {
    SampleLog log = event.log();
    int leftOut = (int) Math.max(LEFT_OUT_LEAST, LEFT_OUT_NANOS / periodNanos);
    int part = (int) Math.max(PART_LEAST, PART_NANOS / periodNanos);
    int to = Math.max(0, event.began() - leftOut);
    int from = Math.max(0, to - part);
    double noise = event.noiseCounts();
    if (to - from < PART_LEAST) {
      return new ZeroBefore(event.zeroCounts(), 0.5 * noise, false);
    }
    double late = trimmedMean(log, from, to);
    double early = trimmedMean(log, 0, Math.min(to, part));
    boolean crept = Math.abs(late - early) > CREPT_NOISES * noise;
    double after = event.levelAfterCounts();
    boolean fellBackToEarly = event.fallen() && Math.abs(early - after) < Math.abs(late - after);
    double zero = crept && fellBackToEarly ? early : late;
    if (!(Math.abs(zero - event.zeroCounts()) < event.triggerCounts()) && !crept) {
      return new ZeroBefore(event.zeroCounts(), 0.5 * noise, true);
    }
    return new ZeroBefore(zero, noise / Math.sqrt(to - from), crept);
  }

  /** Mean of the middle half. */
  private static double trimmedMean(SampleLog log, int from, int to) {
    int[] readings = new int[to - from];
    for (int i = from; i < to; i++) {
      readings[i - from] = log.counts(i);
    }
    Arrays.sort(readings);
    int cut = readings.length / 4;
    double sum = 0;
    for (int i = cut; i < readings.length - cut; i++) {
      sum += readings[i];
    }
    return sum / (readings.length - 2 * cut);
  }

  /** Reading at rest, counts. */
  double counts() {
    return counts;
  }

  /** Its standard uncertainty from noise, counts. */
  double uncertaintyCounts() {
    return uncertaintyCounts;
  }

  /** Whether the reading was not steady. */
  boolean crept() {
    return crept;
  }
}
