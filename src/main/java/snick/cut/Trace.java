package snick.cut;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import snick.cut.response.SeenFall;
import snick.cut.rest.Before;
import snick.sample.Gap;

/**
 * All that the result of one event is derived from: its raw samples, from some rest before to some
 * rest after, as they came, nothing filters them; and what the stream had told before. Immutable.
 * Overrange samples carry the rail's code and are marked.
 */
public final class Trace {
  private final long[] deviceNanos;
  private final int[] counts;
  private final boolean[] overrange;
  private final List<Gap> gaps;
  private final Optional<Before> before;

  /**
   * Copies its arguments.
   *
   * @param deviceNanos device time of each sample, ns, never decreasing
   * @param counts reading of each sample, in counts; the rail's code where overrange
   * @param overrange whether each sample stood at a rail
   * @param gaps missing stretches inside, in order
   * @param before what the stream had told before; empty if nothing is known of that
   */
  public Trace(
      long[] deviceNanos,
      int[] counts,
      boolean[] overrange,
      List<Gap> gaps,
      Optional<Before> before) {
    if (deviceNanos.length != counts.length || counts.length != overrange.length) {
      throw new IllegalArgumentException(
          "trace has "
              + deviceNanos.length
              + " times, "
              + counts.length
              + " readings and "
              + overrange.length
              + " range marks");
    }
    if (before.filter(b -> b.began() >= counts.length).isPresent()) {
      throw new IllegalArgumentException(
          "event begins at sample " + before.get().began() + " of " + counts.length);
    }
    this.deviceNanos = deviceNanos.clone();
    this.counts = counts.clone();
    this.overrange = overrange.clone();
    this.gaps = List.copyOf(gaps);
    this.before = before;
  }

  /** Samples of which no more is known. */
  public Trace(long[] deviceNanos, int[] counts, boolean[] overrange, List<Gap> gaps) {
    this(deviceNanos, counts, overrange, gaps, Optional.empty());
  }

  /** That of an event. */
  Trace(Event event) {
    this.deviceNanos = event.log().copyOfNanos();
    this.counts = event.log().copyOfCounts();
    this.overrange = event.log().copyOfOverrange();
    this.gaps = List.copyOf(event.gaps().all());
    this.before = Optional.of(event.before());
  }

  /** That of a force that was typed in. */
  public static Trace none() {
    return new Trace(new long[0], new int[0], new boolean[0], List.of());
  }

  /** Number of samples. */
  public int size() {
    return counts.length;
  }

  /** Device time of sample {@code i}, ns since the stream's first sample. */
  public long deviceNanos(int i) {
    return deviceNanos[i];
  }

  /** Reading of sample {@code i}, counts. */
  public int counts(int i) {
    return counts[i];
  }

  /** Whether sample {@code i} stood at the end of the converter's range. */
  public boolean overrange(int i) {
    return overrange[i];
  }

  /** Missing stretches inside, in order. */
  public List<Gap> gaps() {
    return gaps;
  }

  /** What the stream had told before; empty if nothing is known of that. */
  public Optional<Before> before() {
    return before;
  }

  /** The fall around an instant, as {@link SeenFall#of} reads it. */
  Optional<SeenFall> fall(
      long breakNanos,
      int polarity,
      double zeroCounts,
      double forceCounts,
      double countsPerSecond,
      double noiseCounts) {
    double[] seconds = new double[counts.length];
    double[] above = new double[counts.length];
    for (int i = 0; i < counts.length; i++) {
      seconds[i] = (deviceNanos[i] - breakNanos) / 1e9;
      above[i] = polarity * (counts[i] - zeroCounts);
    }
    return SeenFall.of(seconds, above, forceCounts, countsPerSecond, noiseCounts);
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Trace that
        && Arrays.equals(deviceNanos, that.deviceNanos)
        && Arrays.equals(counts, that.counts)
        && Arrays.equals(overrange, that.overrange)
        && gaps.equals(that.gaps)
        && before.equals(that.before);
  }

  @Override
  public int hashCode() {
    return 31 * Arrays.hashCode(deviceNanos) + Arrays.hashCode(counts);
  }

  @Override
  public String toString() {
    return "Trace[" + counts.length + " samples, " + gaps.size() + " gaps]";
  }
}
