package snick.cut.rest;

import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.List;
import snick.sample.Gap;

/** The last samples at rest, overwritten in a circle, and where others are missing among them. */
public final class RestRing {
  /** Missing samples, and the number of the sample that follows. */
  private record Missing(long before, Gap gap) {}

  /** Beyond, the rest before the oldest gap is forgotten. */
  public static final int MOST_GAPS = 256;

  public static final int CAPACITY = 8192;
  private static final int MASK = CAPACITY - 1;

  private final long[] nanos = new long[CAPACITY];
  private final int[] counts = new int[CAPACITY];
  private final boolean[] overrange = new boolean[CAPACITY];
  private long written;
  private long floor;
  private long afterRail;
  private final ArrayDeque<Missing> gaps = new ArrayDeque<>();

  public void add(long time, int reading, boolean atRail) {
    int at = (int) written & MASK;
    nanos[at] = time;
    counts[at] = reading;
    overrange[at] = atRail;
    written++;
    afterRail = atRail ? written : afterRail;
  }

  /** Adds the samples {@code from..to}, at most {@link #CAPACITY}, none at a rail. */
  public void add(long[] times, int[] readings, int from, int to) {
    int at = (int) written & MASK;
    int first = Math.min(to - from, CAPACITY - at);
    put(times, readings, from, at, first);
    put(times, readings, from + first, 0, to - from - first);
    written += to - from;
  }

  private void put(long[] times, int[] readings, int from, int at, int n) {
    System.arraycopy(times, from, nanos, at, n);
    System.arraycopy(readings, from, counts, at, n);
    if (!calm(CAPACITY)) {
      Arrays.fill(overrange, at, at + n, false);
    }
  }

  /** Samples are missing before the next one. */
  public void gap(Gap gap) {
    while (gaps.size() == MOST_GAPS || (!gaps.isEmpty() && isOld(gaps.getFirst()))) {
      floor = Math.max(floor, gaps.removeFirst().before());
    }
    gaps.addLast(new Missing(written, gap));
  }

  private boolean isOld(Missing missing) {
    return missing.before() <= written - size();
  }

  /** Forgets everything before this point. */
  public void cutOff() {
    floor = written;
    gaps.clear();
  }

  /**
   * Adds the gaps after which {@code least} to {@code most − 1} samples have come, in order.
   *
   * @return how many have come after the last of them; {@code most} if there is none
   */
  public int gaps(int least, int most, List<Gap> to) {
    int last = most;
    for (Missing missing : gaps) {
      int back = (int) Math.min(CAPACITY, written - missing.before());
      if (back >= least && back < most) {
        to.add(missing.gap());
        last = back;
      }
    }
    return last;
  }

  /** Forgets all but the newest {@code kept} samples. */
  public void cutOffBefore(int kept) {
    floor = Math.max(floor, written - kept);
  }

  public int size() {
    return (int) Math.min(written - floor, CAPACITY);
  }

  /** Reading {@code back} samples ago; 0 is the newest. */
  int counts(int back) {
    return counts[(int) (written - 1 - back) & MASK];
  }

  boolean overrange(int back) {
    return overrange[(int) (written - 1 - back) & MASK];
  }

  /** Whether none of the newest {@code length} samples stood at a rail. */
  boolean calm(int length) {
    return written - afterRail >= length;
  }

  /** The newest {@code length} readings, oldest first, into {@code to}. */
  void copyNewest(int length, int[] to) {
    int from = (int) (written - length) & MASK;
    int first = Math.min(length, CAPACITY - from);
    System.arraycopy(counts, from, to, 0, first);
    System.arraycopy(counts, 0, to, first, length - first);
  }

  public long nanos(int back) {
    return nanos[(int) (written - 1 - back) & MASK];
  }

  /** Appends the samples of the last {@code span} ns, oldest first. */
  public void copyTo(SampleLog log, long spanNanos) {
    int n = samplesOfLast(spanNanos);
    int from = (int) (written - n) & MASK;
    int first = Math.min(n, CAPACITY - from);
    if (calm(n)) {
      log.add(nanos, counts, from, from + first);
      log.add(nanos, counts, 0, n - first);
    } else {
      log.add(nanos, counts, overrange, from, from + first);
      log.add(nanos, counts, overrange, 0, n - first);
    }
  }

  /** How many samples lie within the last {@code span} ns, the newest at least if there is one. */
  private int samplesOfLast(long spanNanos) {
    int within = Math.min(1, size());
    int beyond = size() + 1;
    while (beyond - within > 1) {
      int middle = (within + beyond) / 2;
      if (nanos(0) - nanos(middle - 1) <= spanNanos) {
        within = middle;
      } else {
        beyond = middle;
      }
    }
    return within;
  }
}
