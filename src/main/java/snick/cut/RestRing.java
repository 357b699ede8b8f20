package snick.cut;

/** The last samples at rest, overwritten in a circle. */
final class RestRing {
  static final int CAPACITY = 8192;
  private static final int MASK = CAPACITY - 1;

  private final long[] nanos = new long[CAPACITY];
  private final int[] counts = new int[CAPACITY];
  private final boolean[] overrange = new boolean[CAPACITY];
  private long written;
  private long floor;

  void add(long time, int reading, boolean atRail) {
    int at = (int) written & MASK;
    nanos[at] = time;
    counts[at] = reading;
    overrange[at] = atRail;
    written++;
  }

  /** Forgets everything before this point. */
  void cutOff() {
    floor = written;
  }

  /** Forgets all but the newest {@code kept} samples. */
  void cutOffBefore(int kept) {
    floor = Math.max(floor, written - kept);
  }

  int size() {
    return (int) Math.min(written - floor, CAPACITY);
  }

  /** Reading {@code back} samples ago; 0 is the newest. */
  int counts(int back) {
    return counts[(int) (written - 1 - back) & MASK];
  }

  boolean overrange(int back) {
    return overrange[(int) (written - 1 - back) & MASK];
  }

  long nanos(int back) {
    return nanos[(int) (written - 1 - back) & MASK];
  }

  /** Appends the samples of the last {@code span} ns, oldest first. */
  void copyTo(SampleLog log, long spanNanos) {
    int n = size();
    int from = n - 1;
    while (from > 0 && nanos(0) - nanos(from) > spanNanos) {
      from--;
    }
    for (int back = from; back >= 0; back--) {
      log.add(nanos(back), counts(back), overrange(back));
    }
  }
}
