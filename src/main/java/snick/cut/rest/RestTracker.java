package snick.cut.rest;

import java.util.Arrays;

/**
 * Level and noise at rest, followed block by block. A block is about 0.2 s; at most 32 of its
 * readings, evenly spread, are sorted. The level is the median of the last three block medians and
 * moves by at most half a noise width a block, so that a force creeping up is not taken for drift.
 * Single spikes do not move medians and quantiles; hum widens the level at which loading begins.
 * Rest is known once two blocks in a row lie no further apart than either of them is wide: a stream
 * may begin in the middle of a loading.
 */
public final class RestTracker {
  private static final double BLOCK_NANOS = 200e6;

  /** Two of them fit into a rest of half a second wherever it begins. */
  private static final double FIRST_BLOCKS_NANOS = 150e6;

  private static final int LEAST = 8;
  private static final int MOST = 4096;
  private static final int PICKED = 32;
  private static final int KEPT = 16;
  private static final int KNOWN_BLOCKS = 2;
  private static final int SURE_BLOCKS = 3;
  private static final int TAIL_SHARE = 6;

  /**
   * Two blocks of noise seldom differ more in width; if they do, the next two decide. Half or twice
   * as much changes nothing there.
   */
  private static final double ALIKE = 2.5;

  // The next five were set by hand and tried at half and twice as much on 20 random rigs of 25 cuts
  // (seeds 20040 to 20059). After rests of 1.5 to 2.5 s nothing changes. After 0.35 to 0.5 s half
  // the first or the second loses 3 cuts of 494 and makes 8 forces wrong by 5 % and more; twice the
  // first makes the rms error 1.2 % for 0.6 %; the other three change nothing.

  /** A reading leaves the rest beyond so many widths of what moved or swung lately, and … */
  private static final double TRIGGER_WIDTHS = 2.2;

  /** … so many noises, … */
  public static final double TRIGGER_NOISES = 2.5;

  /** … and so many counts. */
  private static final double LEAST_TRIGGER_COUNTS = 2;

  /** From one block to the next the level moves by so many noises at most, … */
  private static final double STEP_NOISES = 0.5;

  /** … or by so much of that width. */
  private static final double STEP_WIDTHS = 0.25;

  private static final double[] WIDTHS = widths();

  /** Standard deviation of the rounding to whole counts, 1/√12. */
  static final double QUANTISATION_COUNTS = 1 / Math.sqrt(12);

  private final int[] picked = new int[PICKED];
  private final MedianOfThree medians = new MedianOfThree();
  private final SortedWindow sigmas = new SortedWindow(KEPT);
  private final RecentRange course = new RecentRange(KEPT);
  private final RecentGreatest ranges = new RecentGreatest(KEPT);
  private long blocks;
  private int inBlock;
  private int blockLength = LEAST;
  private double level;
  private double lastMedian;
  private int length;
  private double lengthNanos;
  private boolean due;
  private double noise = QUANTISATION_COUNTS;
  private double trigger = Double.POSITIVE_INFINITY;

  /** Starts anew: nothing is known. */
  public void forget() {
    forgetBlocks();
    inBlock = 0;
    blockLength = LEAST;
  }

  private void forgetBlocks() {
    blocks = 0;
    medians.clear();
    sigmas.clear();
    course.clear();
    ranges.clear();
    trigger = Double.POSITIVE_INFINITY;
  }

  /** Drops the block at hand. */
  public void dropBlock() {
    inBlock = 0;
  }

  /** Takes this for the level, keeping what is known of the noise. */
  public void moveTo(double counts) {
    double moved = counts - level;
    level = counts;
    course.shift(moved);
    medians.replaceAll(counts);
    inBlock = 0;
  }

  /** How many samples the block at hand still takes. */
  public int room() {
    return blockLength - inBlock;
  }

  /**
   * Counts {@code n} samples at rest, already in {@code ring}, at most {@link #room}; closes the
   * block when it is full; whether it was, and {@link #follow} is due.
   */
  public boolean samples(int n, RestRing ring, double periodNanos) {
    inBlock += n;
    due = false;
    if (inBlock >= blockLength) {
      inBlock = 0;
      length = Math.min(blockLength, ring.size());
      lengthNanos = length * periodNanos;
      close(ring);
      double nanos = known() ? BLOCK_NANOS : FIRST_BLOCKS_NANOS;
      blockLength = (int) Math.max(LEAST, Math.min(MOST, nanos / periodNanos));
    }
    return due;
  }

  private void close(RestRing ring) {
    int n = pick(ring, length);
    if (n < 4) {
      return;
    }
    Arrays.sort(picked, 0, n);
    int tail = n / TAIL_SHARE;
    double median = 0.5 * ((double) picked[(n - 1) / 2] + picked[n / 2]);
    int range = (int) Math.min(Integer.MAX_VALUE, (long) picked[n - 2] - picked[1]);
    if (blocks == 1 && !agrees(median, 0.5 * range)) {
      forgetBlocks();
    }
    lastMedian = median;
    sigmas.add(spread(n, tail));
    noise = Math.max(QUANTISATION_COUNTS, sigmas.median());
    ranges.add(range);
    blocks++;
    due = true;
  }

  /** Whether a block continues the only one before. A ramp's blocks lie two half ranges apart. */
  private boolean agrees(double median, double halfRange) {
    double before = 0.5 * ranges.greatest();
    double narrow = Math.min(halfRange, before) + 4 * QUANTISATION_COUNTS;
    double wide = Math.max(halfRange, before);
    return Math.abs(median - course.greatest()) <= narrow && wide <= ALIKE * narrow;
  }

  private int pick(RestRing ring, int length) {
    if (length <= PICKED && ring.calm(length)) {
      ring.copyNewest(length, picked);
      return length;
    }
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
    return ((double) picked[n - 1 - tail] - picked[tail]) / WIDTHS[n];
  }

  private static double[] widths() {
    double[] widths = new double[PICKED + 1];
    for (int n = 1; n <= PICKED; n++) {
      widths[n] = 2 * QuantileWidth.ofNormal(n / TAIL_SHARE, n);
    }
    return widths;
  }

  /** Follows the last block: from now on the level is that of the middle of the next one. */
  public void follow(double driftCountsPerSecond) {
    double drift = driftCountsPerSecond * lengthNanos / 1e9;
    level += drift;
    course.shift(drift);
    medians.shift(drift);
    course.add(lastMedian);
    medians.add(lastMedian);
    double moved = 0.5 * (course.greatest() - course.least() - 2 * noise);
    double widest = Math.max(moved, 0.5 * ranges.greatest());
    trigger =
        known()
            ? Math.max(
                LEAST_TRIGGER_COUNTS,
                (TRIGGER_WIDTHS * widest + TRIGGER_NOISES * noise) * caution())
            : trigger;
    double target = medians.median() + drift;
    double step = Math.max(STEP_NOISES * noise, STEP_WIDTHS * widest);
    level = blocks <= 3 ? target : level + Math.max(-step, Math.min(step, target - level));
  }

  /** The first blocks may look calm by chance: eight readings can show a third of the noise. */
  private double caution() {
    return blocks <= 2 ? 2 : 1;
  }

  /** Whether level and noise are known. */
  public boolean known() {
    return blocks >= KNOWN_BLOCKS;
  }

  /** Whether level and noise come from more than a moment. */
  public boolean sure() {
    return blocks >= SURE_BLOCKS;
  }

  /** How many readings the last block spans. */
  public int lastBlockLength() {
    return length;
  }

  /** Median of the last block, counts. */
  public double lastMedianCounts() {
    return lastMedian;
  }

  /** Reading at rest, counts. */
  public double levelCounts() {
    return level;
  }

  /** Standard deviation of one sample at rest, robust, not below that of rounding, counts. */
  public double noiseCounts() {
    return noise;
  }

  /** Distance from the level at which loading begins, counts; infinite while nothing is known. */
  public double triggerCounts() {
    return trigger;
  }
}
