package snick.cut;

import java.util.Arrays;

/**
 * Learns the sampling period from time stamps: the median of block means, so that jitter of single
 * stamps and single gaps do not move it.
 */
final class PeriodTracker {
  private static final int BLOCK = 16;
  private static final int KEPT = 9;
  private static final double FIRST_GUESS_NANOS = 12.5e6;

  private final double[] recent = new double[KEPT];
  private final double[] sorted = new double[KEPT];
  private int blocks;
  private int inBlock;
  private long blockStartNanos;
  private double periodNanos = FIRST_GUESS_NANOS;

  /** One sample's device time, ns. */
  void stamp(long nanos) {
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

  /** The time axis is broken here: the block at hand is dropped. */
  void gap() {
    inBlock = 0;
  }

  private void close(long nanos) {
    recent[blocks % KEPT] = (nanos - blockStartNanos) / (double) BLOCK;
    blocks++;
    int n = Math.min(blocks, KEPT);
    System.arraycopy(recent, 0, sorted, 0, n);
    Arrays.sort(sorted, 0, n);
    double median = sorted[n / 2];
    if (median > 0) {
      periodNanos = median;
    }
  }

  /** Whether at least one block was seen. */
  boolean known() {
    return blocks > 0;
  }

  /** Time from one sample to the next, ns, above 0. */
  double periodNanos() {
    return periodNanos;
  }
}
