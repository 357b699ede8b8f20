package snick.live;

import java.util.Arrays;
import snick.sample.Gap;
import snick.sample.Rail;
import snick.sample.SampleSink;

/**
 * The latest samples of one rig. One thread writes and never waits; any thread reads a copy. A
 * reader that comes too late finds the oldest samples gone.
 */
public final class LiveTrace {
  /** Samples kept, a power of two. */
  static final int KEPT = 1 << 13;

  private static final int MASK = KEPT - 1;
  private static final int HIGH_RAIL_COUNTS = 0x7FFFFF;
  private static final int LOW_RAIL_COUNTS = -0x800000;

  private final long[] deviceNanos = new long[KEPT];
  private final int[] counts = new int[KEPT];
  private final boolean[] afterGap = new boolean[KEPT];
  private volatile long written;
  private boolean gap = true;

  /** Some samples in a row. */
  public static final class Slice {
    private final long next;
    private final long[] deviceNanos;
    private final int[] counts;
    private final boolean[] afterGap;

    private Slice(long next, long[] deviceNanos, int[] counts, boolean[] afterGap) {
      this.next = next;
      this.deviceNanos = deviceNanos;
      this.counts = counts;
      this.afterGap = afterGap;
    }

    /** Number of samples. */
    public int size() {
      return counts.length;
    }

    /** Number, in the whole stream, of the sample that follows the last one here. */
    public long next() {
      return next;
    }

    /** Device time of sample {@code i}, ns. */
    public long deviceNanos(int i) {
      return deviceNanos[i];
    }

    /** Reading of sample {@code i}, counts; a rail's code where overrange. */
    public int counts(int i) {
      return counts[i];
    }

    /** Whether something is missing before sample {@code i}. */
    public boolean afterGap(int i) {
      return afterGap[i];
    }

    private Slice without(int oldest) {
      return new Slice(
          next,
          Arrays.copyOfRange(deviceNanos, oldest, size()),
          Arrays.copyOfRange(counts, oldest, size()),
          Arrays.copyOfRange(afterGap, oldest, size()));
    }
  }

  /** A sink that notes what passes on its way to {@code next}. */
  public SampleSink before(SampleSink next) {
    return new Tee(next);
  }

  /** The samples from number {@code from} on, as far as they are kept. */
  public Slice since(long from) {
    long end = written;
    long begin = Math.min(end, Math.max(from, end - KEPT + 1));
    int length = (int) (end - begin);
    Slice slice = new Slice(end, new long[length], new int[length], new boolean[length]);
    for (int i = 0; i < length; i++) {
      int at = (int) (begin + i) & MASK;
      slice.deviceNanos[i] = deviceNanos[at];
      slice.counts[i] = counts[at];
      slice.afterGap[i] = afterGap[at];
    }
    long overwritten = written - KEPT + 1 - begin;
    return overwritten > 0 ? slice.without((int) Math.min(overwritten, length)) : slice;
  }

  /** The samples of the last {@code nanos} ns of device time, as far as they are kept. */
  public Slice lastNanos(long nanos) {
    Slice all = since(0);
    int oldest = all.size();
    while (oldest > 0 && all.deviceNanos[all.size() - 1] - all.deviceNanos[oldest - 1] <= nanos) {
      oldest--;
    }
    return all.without(oldest);
  }

  private void note(long nanos, int reading) {
    int at = (int) written & MASK;
    deviceNanos[at] = nanos;
    counts[at] = reading;
    afterGap[at] = gap;
    gap = false;
    advance();
  }

  /** Makes the sample visible; only this thread writes. */
  @SuppressWarnings("NonAtomicVolatileUpdate")
  private void advance() {
    written++;
  }

  private final class Tee implements SampleSink {
    private final SampleSink next;

    Tee(SampleSink next) {
      this.next = next;
    }

    @Override
    public void sample(long nanos, int reading) {
      note(nanos, reading);
      next.sample(nanos, reading);
    }

    @Override
    public void overrange(long nanos, Rail rail) {
      note(nanos, rail == Rail.HIGH ? HIGH_RAIL_COUNTS : LOW_RAIL_COUNTS);
      next.overrange(nanos, rail);
    }

    @Override
    public void gap(Gap missing) {
      gap = true;
      next.gap(missing);
    }

    @Override
    public void end() {
      gap = true;
      next.end();
    }
  }
}
