package snick.cut.rest;

import java.util.Arrays;

/** Samples in order in arrays that grow to a bound and are used again. */
public final class SampleLog {
  private static final int FIRST_CAPACITY = 4096;

  private long[] nanos = new long[FIRST_CAPACITY];
  private int[] counts = new int[FIRST_CAPACITY];
  private boolean[] overrange = new boolean[FIRST_CAPACITY];
  private int size;

  /** From this index on, none is marked in {@link #overrange}. */
  private int calmFrom;

  public void clear() {
    Arrays.fill(overrange, 0, calmFrom, false);
    calmFrom = 0;
    size = 0;
  }

  public void add(long time, int reading, boolean atRail) {
    if (size == nanos.length) {
      grow();
    }
    nanos[size] = time;
    counts[size] = reading;
    size++;
    if (atRail) {
      overrange[size - 1] = true;
      calmFrom = size;
    }
  }

  /** Adds the samples {@code from..to}, none at a rail. */
  public void add(long[] times, int[] readings, int from, int to) {
    int n = to - from;
    append(times, readings, from, n);
    size += n;
  }

  /** Adds the samples {@code from..to}. */
  public void add(long[] times, int[] readings, boolean[] atRail, int from, int to) {
    int n = to - from;
    append(times, readings, from, n);
    System.arraycopy(atRail, from, overrange, size, n);
    size += n;
    calmFrom = size;
  }

  private void append(long[] times, int[] readings, int from, int n) {
    while (size + n > nanos.length) {
      grow();
    }
    System.arraycopy(times, from, nanos, size, n);
    System.arraycopy(readings, from, counts, size, n);
  }

  private void grow() {
    int capacity = 2 * nanos.length;
    nanos = Arrays.copyOf(nanos, capacity);
    counts = Arrays.copyOf(counts, capacity);
    overrange = Arrays.copyOf(overrange, capacity);
  }

  /** Keeps the first {@code kept} samples only; those taken away are at no rail. */
  public void keep(int kept) {
    size = kept;
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

  public boolean overrange(int i) {
    return overrange[i];
  }

  /** How far each reading lies from {@code zero} in a direction, counts. */
  public double[] countsFrom(double zero, int polarity) {
    int[] readings = counts;
    double[] from = new double[size];
    for (int i = 0; i < from.length; i++) {
      from[i] = polarity * (readings[i] - zero);
    }
    return from;
  }

  /** Whether each sample is at no rail. */
  public boolean[] usable() {
    boolean[] usable = new boolean[size];
    Arrays.fill(usable, true);
    for (int i = 0; i < Math.min(calmFrom, size); i++) {
      usable[i] = !overrange[i];
    }
    return usable;
  }

  /** Device time of each sample from an index on since that one, ns. */
  public double[] nanosSince(int from) {
    long[] times = nanos;
    double[] since = new double[size - from];
    for (int i = 0; i < since.length; i++) {
      since[i] = times[from + i] - times[from];
    }
    return since;
  }

  public long[] copyOfNanos() {
    return Arrays.copyOf(nanos, size);
  }

  public int[] copyOfCounts() {
    return Arrays.copyOf(counts, size);
  }

  /** Readings {@code from..to}. */
  public int[] copyOfCounts(int from, int to) {
    return Arrays.copyOfRange(counts, from, to);
  }

  public boolean[] copyOfOverrange() {
    return Arrays.copyOf(overrange, size);
  }
}
