package snick.cut.rest;

/**
 * Learns the sampling period from time stamps: the median of block means, so that jitter of single
 * stamps and single gaps do not move it.
 */
public final class PeriodTracker {
  private static final int BLOCK = 16;
  private static final int KEPT = 9;
  private static final double FIRST_GUESS_NANOS = 12.5e6;

  private final SortedWindow means = new SortedWindow(KEPT);
  private boolean known;
  private int inBlock;
  private long blockStartNanos;
  private double periodNanos = FIRST_GUESS_NANOS;

  /** One sample's device time, ns. */
  public void stamp(long nanos) {
    if (inBlock == 0) {
      blockStartNanos = nanos;
    }
    if (inBlock == BLOCK) {
      close(nanos);
      blockStartNanos = nanos;
      inBlock = 0;
    }
    inBlock++;
  }

  /** Device times of {@code times[from..to)}, ns. */
  public void stamp(long[] times, int from, int to) {
    int at = from;
    while (at < to) {
      stamp(times[at++]);
      int more = Math.min(BLOCK - inBlock, to - at);
      inBlock += more;
      at += more;
    }
  }

  /** How many more samples may be stamped so that the first at most changes the period. */
  public int steady() {
    return inBlock == BLOCK ? BLOCK : BLOCK - inBlock;
  }

  /** Forgets the last {@code n} stamps, all but the first of those last stamped at most. */
  public void takeBack(int n) {
    inBlock -= n;
  }

  /** The time axis is broken here: the block at hand is dropped. */
  public void gap() {
    inBlock = 0;
  }

  private void close(long nanos) {
    means.add((nanos - blockStartNanos) / (double) BLOCK);
    known = true;
    double median = means.upperMedian();
    if (median > 0) {
      periodNanos = median;
    }
  }

  /** Whether at least one block was seen. */
  public boolean known() {
    return known;
  }

  /** Time from one sample to the next, ns, above 0. */
  public double periodNanos() {
    return periodNanos;
  }
}
