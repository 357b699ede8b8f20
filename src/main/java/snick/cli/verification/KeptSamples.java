package snick.cli.verification;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalLong;
import java.util.function.IntPredicate;
import snick.cli.terminal.Refusal;
import snick.cut.Trace;
import snick.sample.Gap;
import snick.sample.Rail;
import snick.sample.SampleSink;

/** The samples of a few minutes, to be looked at again. One thread. */
final class KeptSamples implements SampleSink {
  private static final int HIGHEST_CODE = 0x7FFFFF;
  private static final int LOWEST_CODE = -0x800000;
  private static final int MOST_SAMPLES = 2_000_000;

  private long[] nanos = new long[4096];
  private int[] counts = new int[4096];
  private boolean[] overrange = new boolean[4096];
  private final List<Gap> gaps = new ArrayList<>();
  private int size;

  @Override
  public void sample(long deviceNanos, int reading) {
    add(deviceNanos, reading, false);
  }

  @Override
  public void overrange(long deviceNanos, Rail rail) {
    add(deviceNanos, rail == Rail.HIGH ? HIGHEST_CODE : LOWEST_CODE, true);
  }

  private void add(long deviceNanos, int reading, boolean atRail) {
    if (size == MOST_SAMPLES) {
      throw Refusal.failed(MOST_SAMPLES + " samples and no end; begin again", null);
    }
    if (size == nanos.length) {
      nanos = Arrays.copyOf(nanos, 2 * size);
      counts = Arrays.copyOf(counts, 2 * size);
      overrange = Arrays.copyOf(overrange, 2 * size);
    }
    nanos[size] = deviceNanos;
    counts[size] = reading;
    overrange[size] = atRail;
    size++;
  }

  @Override
  public void gap(Gap gap) {
    gaps.add(gap);
  }

  @Override
  public void end() {}

  /** Whether samples are missing. */
  boolean isBroken() {
    return !gaps.isEmpty();
  }

  /** Device time of the newest sample, ns; 0 before the first. */
  long lastNanos() {
    return size == 0 ? 0 : nanos[size - 1];
  }

  /** Device time of the first sample after {@code fromNanos} whose reading is as wanted, ns. */
  OptionalLong firstAfter(long fromNanos, IntPredicate wanted) {
    for (int i = place(fromNanos); i < size; i++) {
      if (wanted.test(counts[i])) {
        return OptionalLong.of(nanos[i]);
      }
    }
    return OptionalLong.empty();
  }

  /** Gives all samples, and the end, to {@code sink}. */
  void replay(SampleSink sink) {
    for (int i = 0; i < size; i++) {
      if (overrange[i]) {
        sink.overrange(nanos[i], counts[i] == HIGHEST_CODE ? Rail.HIGH : Rail.LOW);
      } else {
        sink.sample(nanos[i], counts[i]);
      }
    }
    sink.end();
  }

  /** Samples from one device time to another, ns. */
  Trace between(long fromNanos, long toNanos) {
    int from = place(fromNanos);
    int to = place(toNanos);
    return new Trace(
        Arrays.copyOfRange(nanos, from, to),
        Arrays.copyOfRange(counts, from, to),
        Arrays.copyOfRange(overrange, from, to),
        List.of());
  }

  private int place(long deviceNanos) {
    int found = Arrays.binarySearch(nanos, 0, size, deviceNanos);
    return found < 0 ? -found - 1 : found;
  }
}
