package snick.cut;

import java.util.Arrays;

/**
 * Level and noise at rest, followed block by block. A block is about 0.2 s; at most 32 of its
 * readings, evenly spread, are sorted. The level is the median of the last three block medians and
 * moves by at most half a noise width a block, so that a force creeping up is not taken for drift.
 * Single spikes do not move medians and quantiles; hum widens the level at which loading begins.
 */
final class RestTracker {
  private static final double BLOCK_NANOS = 200e6;
  private static final int LEAST = 8;
  private static final int MOST = 4096;
  private static final int PICKED = 32;
  private static final int KEPT = 16;
  private static final int TAIL_SHARE = 6;
  private static final double[] WIDTHS = widths();

  /** Standard deviation of the rounding to whole counts, 1/√12. */
  static final double QUANTISATION_COUNTS = 1 / Math.sqrt(12);

  private final int[] picked = new int[PICKED];
  private final SortedWindow medians = new SortedWindow(3);
  private final SortedWindow sigmas = new SortedWindow(KEPT);
  private final double[] course = new double[KEPT];
  private final double[] halfRanges = new double[KEPT];
  private long blocks;
  private int inBlock;
  private int blockLength = LEAST;
  private double level;
  private double noise = QUANTISATION_COUNTS;
  private double trigger = Double.POSITIVE_INFINITY;

  /** Starts anew: nothing is known. */
  void forget() {
    blocks = 0;
    medians.clear();
    sigmas.clear();
    inBlock = 0;
    blockLength = LEAST;
    trigger = Double.POSITIVE_INFINITY;
  }

  /** Drops the block at hand. */
  void dropBlock() {
    inBlock = 0;
  }

  /** Takes this for the level, keeping what is known of the noise. */
  void moveTo(double counts) {
    double moved = counts - level;
    level = counts;
    Arrays.setAll(course, i -> course[i] + moved);
    medians.replaceAll(counts);
    inBlock = 0;
  }

  /** Counts one sample at rest, already in {@code ring}; closes the block when it is full. */
  void sample(RestRing ring, double periodNanos) {
    if (++inBlock >= blockLength) {
      inBlock = 0;
      close(ring, Math.min(blockLength, ring.size()));
      blockLength = (int) Math.max(LEAST, Math.min(MOST, BLOCK_NANOS / periodNanos));
    }
  }

  private void close(RestRing ring, int length) {
    int n = pick(ring, length);
    if (n < 4) {
      return;
    }
    Arrays.sort(picked, 0, n);
    int tail = n / TAIL_SHARE;
    double median = 0.5 * (picked[(n - 1) / 2] + picked[n / 2]);
    medians.add(median);
    course[(int) (blocks % KEPT)] = median;
    sigmas.add(spread(n, tail));
    halfRanges[(int) (blocks % KEPT)] = 0.5 * (picked[n - 2] - picked[1]);
    blocks++;
    follow();
  }

  private int pick(RestRing ring, int length) {
    int stride = Math.max(1, (length + PICKED - 1) / PICKED);
    int n = 0;
    for (int back = 0; back < length; back += stride) {
      if (!ring.overrange(back)) {
        picked[n++] = ring.counts(back);
      }
    }
    return n;
  }

  /** Half the width between the lower and upper sixth: about one standard deviation. */
  private double spread(int n, int tail) {
    return (picked[n - 1 - tail] - picked[tail]) / WIDTHS[n];
  }

  private static double[] widths() {
    double[] widths = new double[PICKED + 1];
    for (int n = 1; n <= PICKED; n++) {
      widths[n] = 2 * QuantileWidth.ofNormal(n / TAIL_SHARE, n);
    }
    return widths;
  }

  private void follow() {
    int n = (int) Math.min(blocks, KEPT);
    noise = Math.max(QUANTISATION_COUNTS, sigmas.median());
    double widest = 0.5 * Math.max(0, range(course, n) - 2 * noise);
    for (int i = 0; i < n; i++) {
      widest = Math.max(widest, halfRanges[i]);
    }
    trigger = (2.2 * widest + 2.5 * noise) * caution(n);
    trigger = Math.max(trigger, 2);
    double target = medians.median();
    double step = Math.max(0.5 * noise, 0.25 * widest);
    level = blocks <= 3 ? target : level + Math.max(-step, Math.min(step, target - level));
  }

  /**
   * The first block may look calm by chance: one of eight readings can show a third of the noise.
   */
  private static double caution(int blocks) {
    return blocks == 1 ? 4 : blocks == 2 ? 2 : 1;
  }

  private static double range(double[] values, int n) {
    double lowest = values[0];
    double highest = values[0];
    for (int i = 1; i < n; i++) {
      lowest = Math.min(lowest, values[i]);
      highest = Math.max(highest, values[i]);
    }
    return highest - lowest;
  }

  /** Whether level and noise are known. */
  boolean known() {
    return blocks > 0;
  }

  /** Blocks seen since all was forgotten. */
  long blocks() {
    return blocks;
  }

  /** Reading at rest, counts. */
  double levelCounts() {
    return level;
  }

  /** Standard deviation of one sample at rest, robust, not below that of rounding, counts. */
  double noiseCounts() {
    return noise;
  }

  /** Distance from the level at which loading begins, counts; infinite while nothing is known. */
  double triggerCounts() {
    return trigger;
  }
}
