package snick.cut;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import snick.cut.response.SeenFall;
import snick.cut.rest.SampleLog;
import snick.sample.Gap;

/**
 * The raw samples of one event, from some rest before to some rest after, as they came: nothing
 * filters them. Immutable. Overrange samples carry the rail's code and are marked.
 */
public final class Trace {
  private final long[] deviceNanos;
  private final int[] counts;
  private final boolean[] overrange;
  private final List<Gap> gaps;

  /**
   * Copies its arguments.
   *
   * @param deviceNanos device time of each sample, ns, never decreasing
   * @param counts reading of each sample, in counts; the rail's code where overrange
   * @param overrange whether each sample stood at a rail
   * @param gaps missing stretches inside, in order
   */
  public Trace(long[] deviceNanos, int[] counts, boolean[] overrange, List<Gap> gaps) {
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
    this.deviceNanos = deviceNanos.clone();
    this.counts = counts.clone();
    this.overrange = overrange.clone();
    this.gaps = List.copyOf(gaps);
  }

  /** The samples of a log. */
  Trace(SampleLog log, List<Gap> gaps) {
    this.deviceNanos = log.copyOfNanos();
    this.counts = log.copyOfCounts();
    this.overrange = log.copyOfOverrange();
    this.gaps = List.copyOf(gaps);
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
        && gaps.equals(that.gaps);
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
