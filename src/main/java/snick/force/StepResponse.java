package snick.force;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.cut.Trace;

/**
 * What the chain makes of a step of force: a mass hangs by a thread, the thread is cut.
 *
 * @param stepCounts level before less level after, counts, positive
 * @param noiseCounts standard deviation of one sample before the fall, counts
 * @param halfFallNanos device time at which the fall was half done, ns, interpolated
 * @param fallNanos time from 90 % to 10 % of the step, ns, interpolated
 * @param overshoot largest swing past the level after, in proportion to the step; 0 if none shows
 * @param ring free oscillation after the fall, if one shows above the noise
 */
public record StepResponse(
    double stepCounts,
    double noiseCounts,
    long halfFallNanos,
    long fallNanos,
    double overshoot,
    Optional<Ring> ring) {
  private static final int FEWEST = 8;
  private static final double VISIBLE = 5;

  /**
   * A free oscillation, as far as the sampling rate lets it show: above half the rate it appears at
   * a lower, false frequency.
   *
   * @param hertz frequency
   * @param dampingRatio from the logarithmic decrement of two swings in a row; empty if only one
   *     shows
   */
  public record Ring(double hertz, OptionalDouble dampingRatio) {}

  /**
   * Reads the step out of a trace that holds rest under load, the fall and rest without load.
   *
   * @param polarity +1 if load raises the reading, −1 if it lowers it
   * @throws IllegalArgumentException if no clear step is in it, or too little rest around it
   */
  public static StepResponse of(Trace trace, int polarity) {
    double[] counts = new double[trace.size()];
    for (int i = 0; i < counts.length; i++) {
      if (trace.overrange(i)) {
        throw new IllegalArgumentException(
            "sample " + (i + 1) + " is overrange: hang a smaller mass");
      }
      counts[i] = polarity * (double) trace.counts(i);
    }
    int steepest = steepest(counts);
    if (steepest < FEWEST || counts.length - steepest < 3 * FEWEST) {
      throw new IllegalArgumentException(
          steepest
              + " samples before the fall and "
              + (counts.length - steepest)
              + " after it: at least 8 and 24 needed; leave the mass hanging still for a second"
              + " before and after");
    }
    Level before = Level.of(counts, 0, Math.max(FEWEST, steepest - FEWEST / 2));
    Level after = Level.of(counts, counts.length - (counts.length - steepest) / 3, counts.length);
    double step = before.mean - after.mean;
    if (!(step > 10 * Math.max(1, before.sd))) {
      throw new IllegalArgumentException(
          "no clear step: "
              + step
              + " counts beside noise of "
              + before.sd
              + " counts; hang a larger mass");
    }
    double ninety = crossing(trace, counts, steepest, after.mean + 0.9 * step);
    double ten = crossing(trace, counts, steepest, after.mean + 0.1 * step);
    double half = crossing(trace, counts, steepest, after.mean + 0.5 * step);
    List<Swing> swings = swings(trace, counts, ten, after.mean, VISIBLE * Math.max(1, before.sd));
    return new StepResponse(
        step,
        before.sd,
        Math.round(half),
        Math.round(ten - ninety),
        swings.stream().mapToDouble(s -> Math.max(0, -s.counts)).max().orElse(0) / step,
        ring(swings));
  }

  /** Mean and standard deviation of a stretch at rest. */
  private record Level(double mean, double sd) {
    static Level of(double[] counts, int from, int to) {
      double mean = 0;
      for (int i = from; i < to; i++) {
        mean += counts[i];
      }
      mean /= to - from;
      double squares = 0;
      for (int i = from; i < to; i++) {
        squares += (counts[i] - mean) * (counts[i] - mean);
      }
      return new Level(mean, Math.sqrt(squares / Math.max(1, to - from - 1)));
    }
  }

  /** An extreme between two crossings of the level after, and when the second one was. */
  private record Swing(double endNanos, double counts) {}

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

  /** Time at which the fall around {@code steepest} passes {@code level}, interpolated. */
  private static double crossing(Trace trace, double[] counts, int steepest, double level) {
    int i = steepest;
    while (i < counts.length - 1 && counts[i] > level) {
      i++;
    }
    while (i > 1 && counts[i - 1] <= level) {
      i--;
    }
    return between(trace, counts, i, level);
  }

  private static List<Swing> swings(
      Trace trace, double[] counts, double fromNanos, double level, double visibleCounts) {
    List<Swing> swings = new ArrayList<>();
    double extreme = 0;
    for (int i = 1; i < counts.length; i++) {
      if (trace.deviceNanos(i) < fromNanos) {
        continue;
      }
      double away = counts[i] - level;
      if (extreme != 0 && away * extreme < 0) {
        swings.add(new Swing(between(trace, counts, i, level), extreme));
        extreme = 0;
      }
      if (Math.abs(away) > Math.abs(extreme)) {
        extreme = away;
      }
    }
    return visible(swings, visibleCounts);
  }

  /** Time at which the straight line from sample i − 1 to sample i passes {@code level}, ns. */
  private static double between(Trace trace, double[] counts, int i, double level) {
    double part = (counts[i - 1] - level) / (counts[i - 1] - counts[i]);
    return trace.deviceNanos(i - 1) + part * (trace.deviceNanos(i) - trace.deviceNanos(i - 1));
  }

  /** The swings before the first that the noise hides; the rest of the fall itself is none. */
  private static List<Swing> visible(List<Swing> swings, double visibleCounts) {
    boolean fallFirst = !swings.isEmpty() && swings.get(0).counts > 0;
    return swings.stream()
        .skip(fallFirst ? 1 : 0)
        .takeWhile(swing -> Math.abs(swing.counts) > visibleCounts)
        .toList();
  }

  private static Optional<Ring> ring(List<Swing> swings) {
    if (swings.size() < 2) {
      return Optional.empty();
    }
    Swing first = swings.get(0);
    Swing last = swings.get(swings.size() - 1);
    double halfPeriods = swings.size() - 1;
    double hertz = halfPeriods / 2 / ((last.endNanos - first.endNanos) / 1e9);
    double decrement = Math.log(Math.abs(first.counts / last.counts)) / halfPeriods;
    return Optional.of(
        new Ring(
            hertz,
            decrement > 0
                ? OptionalDouble.of(decrement / Math.hypot(Math.PI, decrement))
                : OptionalDouble.empty()));
  }

  /**
   * Delay of the chain against a known instant of the cut, ns: the middle of the fall less that
   * instant.
   */
  public long delayNanos(long cutNanos) {
    return halfFallNanos - cutNanos;
  }
}
