package snick.force.check;

import java.util.Arrays;
import org.apache.commons.statistics.descriptive.Mean;
import org.apache.commons.statistics.descriptive.StandardDeviation;
import org.apache.commons.statistics.distribution.NormalDistribution;
import snick.cut.Trace;

/** A fall from rest to rest, scaled so that it runs from 1 to 0, and where it passes a level. */
final class StepSamples {
  private static final int FEWEST = 8;
  private static final double CLEAR = 10;
  private static final double VISIBLE = 5;

  /** Samples before the first that has moved in which the fall may have begun. */
  private static final int UNSEEN = 4;

  private static final double ROOT_3 = Math.sqrt(3);
  private static final NormalDistribution NORMAL = NormalDistribution.of(0, 1);

  private final Trace trace;
  private final double[] shares;
  private final int steepest;
  private final double stepCounts;
  private final double noiseCounts;

  private StepSamples(
      Trace trace, double[] shares, int steepest, double stepCounts, double noiseCounts) {
    this.trace = trace;
    this.shares = shares;
    this.steepest = steepest;
    this.stepCounts = stepCounts;
    this.noiseCounts = noiseCounts;
  }

  /**
   * The fall in {@code trace}.
   *
   * @throws IllegalArgumentException if no clear step is in it, or too little rest around it
   */
  static StepSamples of(Trace trace, int polarity) {
    double[] counts = counts(trace, polarity);
    int steepest = steepest(counts);
    if (steepest < FEWEST || counts.length - steepest < 3 * FEWEST) {
      throw new IllegalArgumentException(
          steepest
              + " samples before the fall and "
              + (counts.length - steepest)
              + " after it: at least 8 and 24 needed; leave the mass hanging still for a second"
              + " before and after");
    }
    double[] before = Arrays.copyOf(counts, steepest - Math.max(FEWEST / 2, steepest / 4));
    double[] after =
        Arrays.copyOfRange(counts, counts.length - (counts.length - steepest) / 3, counts.length);
    double rest = Mean.of(after).getAsDouble();
    double step = Mean.of(before).getAsDouble() - rest;
    double noise = Math.max(1, StandardDeviation.of(before).getAsDouble());
    if (!(step > CLEAR * noise)) {
      throw new IllegalArgumentException(
          "no clear step: %s counts beside noise of %s counts; hang a larger mass"
              .formatted(step, noise));
    }
    double[] shares = Arrays.stream(counts).map(c -> (c - rest) / step).toArray();
    return new StepSamples(trace, shares, steepest, step, noise);
  }

  private static double[] counts(Trace trace, int polarity) {
    double[] counts = new double[trace.size()];
    for (int i = 0; i < counts.length; i++) {
      if (trace.overrange(i)) {
        throw new IllegalArgumentException(
            "sample " + (i + 1) + " is overrange: hang a smaller mass");
      }
      counts[i] = polarity * (double) trace.counts(i);
    }
    return counts;
  }

  private static int steepest(double[] counts) {
    int place = 0;
    double largest = 0;
    for (int i = 1; i < counts.length; i++) {
      if (counts[i - 1] - counts[i] > largest) {
        largest = counts[i - 1] - counts[i];
        place = i;
      }
    }
    return place;
  }

  double stepCounts() {
    return stepCounts;
  }

  /** Standard deviation of one sample before the fall, at least 1 count. */
  double noiseCounts() {
    return noiseCounts;
  }

  double noiseShare() {
    return noiseCounts / stepCounts;
  }

  /** Smallest departure from rest that counts as seen: five times the noise. */
  double visibleShare() {
    return VISIBLE * noiseShare();
  }

  /** Mean time from sample to sample, ns. */
  double periodNanos() {
    int last = shares.length - 1;
    return (trace.deviceNanos(last) - trace.deviceNanos(0)) / (double) last;
  }

  /**
   * When the fall passes a level.
   *
   * @param nanos device time, ns
   * @param halfWidthNanos how far the course between two samples may lead astray, ns
   * @param noiseNanos standard uncertainty by noise, ns
   */
  record Crossing(double nanos, double halfWidthNanos, double noiseNanos) {
    /** Time from this to {@code later}: both may be led astray by the same course. */
    Estimated until(Crossing later) {
      double course = (halfWidthNanos + later.halfWidthNanos) / ROOT_3;
      double noise = Math.hypot(noiseNanos, later.noiseNanos);
      return new Estimated(later.nanos - nanos, Math.hypot(course, noise));
    }
  }

  /**
   * When the fall passes {@code level}. Between its two samples the course is taken as that of the
   * normal distribution, to which the step response of boxes in cascade comes near; the straight
   * line between them says how far astray that may be.
   */
  Crossing crossing(double level) {
    int i = steepest;
    while (i < shares.length - 1 && shares[i] > level) {
      i++;
    }
    while (i > 1 && shares[i - 1] <= level) {
      i--;
    }
    double period = trace.deviceNanos(i) - (double) trace.deviceNanos(i - 1);
    double fall = shares[i - 1] - shares[i];
    double straight = (shares[i - 1] - level) / fall;
    double curved =
        (deviate(shares[i - 1]) - deviate(level)) / (deviate(shares[i - 1]) - deviate(shares[i]));
    return new Crossing(
        trace.deviceNanos(i - 1) + curved * period,
        Math.abs(curved - straight) * period,
        noiseShare() / fall * period);
  }

  /** Standard normal deviate of a share; what the noise hides near 0 and 1 counts as the noise. */
  private double deviate(double share) {
    double edge = Math.min(0.05, 2 * noiseShare());
    return NORMAL.inverseCumulativeProbability(Math.max(edge, Math.min(1 - edge, share)));
  }

  /** Number of the first sample of the fall that has visibly left rest. */
  int firstMoved() {
    int i = steepest;
    while (i > 1 && shares[i - 1] < 1 - visibleShare()) {
      i--;
    }
    return i;
  }

  /**
   * The equal-area instant, device time, ns: from a sample at rest on, until no swing stands out of
   * the noise any more. Whether too few samples show the fall, each second one of them tells: a
   * jump may lie anywhere between two samples, boxes of a sample lose nothing of the area.
   *
   * @param fallNanos time that the fall takes; what swings on unseen takes no longer
   */
  Estimated equalArea(double fallNanos) {
    int from = Math.max(0, firstMoved() - UNSEEN);
    int to = lastMoved();
    double sum = 0.5;
    double alternating = 0.5;
    for (int i = from + 1; i <= to; i++) {
      sum += shares[i];
      alternating += (i - from) % 2 == 0 ? shares[i] : -shares[i];
    }
    double period = periodNanos();
    double summed = to - from;
    double rest = summed / Math.sqrt((shares.length - steepest) / 3.0);
    double noise = noiseShare() * period * Math.hypot(Math.sqrt(summed), rest);
    double course = Math.hypot(alternating * period, visibleShare() * fallNanos) / ROOT_3;
    return new Estimated(trace.deviceNanos(from) + sum * period, Math.hypot(course, noise));
  }

  /** Number of the last sample that stands out of the noise. */
  private int lastMoved() {
    int i = shares.length - 1;
    while (i > steepest && Math.abs(shares[i]) <= visibleShare()) {
      i--;
    }
    return i;
  }

  double nanos(int i) {
    return trace.deviceNanos(i);
  }

  /** Departures from rest of the samples before the fall. */
  double[] atRest() {
    int size = steepest - Math.max(FEWEST / 2, steepest / 4);
    return Arrays.stream(shares).limit(size).map(share -> share - 1).toArray();
  }

  /** Shares of all samples after {@code fromNanos}. */
  double[] after(double fromNanos) {
    int i = steepest;
    while (i < shares.length && trace.deviceNanos(i) <= fromNanos) {
      i++;
    }
    return Arrays.copyOfRange(shares, i, shares.length);
  }
}
