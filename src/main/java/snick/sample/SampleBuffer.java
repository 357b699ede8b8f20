package snick.sample;

import java.util.Arrays;

/** Samples in the order in which they came, up to so many; those after them are left out. */
public final class SampleBuffer {
  private final int most;
  private long[] nanos = new long[1024];
  private int[] counts = new int[1024];
  private int size;

  public SampleBuffer(int most) {
    this.most = most;
  }

  /** Adds a sample, later than those before; whether there was room. */
  public boolean add(long deviceNanos, int reading) {
    if (isFull()) {
      return false;
    }
    if (size == nanos.length) {
      nanos = Arrays.copyOf(nanos, 2 * size);
      counts = Arrays.copyOf(counts, 2 * size);
    }
    nanos[size] = deviceNanos;
    counts[size++] = reading;
    return true;
  }

  public boolean isFull() {
    return size == most;
  }

  public int size() {
    return size;
  }

  public long nanos(int i) {
    return nanos[i];
  }

  public int counts(int i) {
    return counts[i];
  }

  /** Device times from the sample numbered {@code from} to before that numbered {@code to}. */
  public long[] nanos(int from, int to) {
    return Arrays.copyOfRange(nanos, from, to);
  }

  /** The same of readings. */
  public int[] counts(int from, int to) {
    return Arrays.copyOfRange(counts, from, to);
  }

  /** Number of the first sample at this time or later; how many there are if there is none. */
  public int firstFrom(long deviceNanos) {
    int found = Arrays.binarySearch(nanos, 0, size, deviceNanos);
    return found < 0 ? -found - 1 : found;
  }
}
