package snick.cut;

import java.util.Arrays;
import snick.cut.rest.RunningMedian;

/**
 * Where the reading stands when swings are averaged out, and how widely it swings. The readings,
 * spikes replaced, are gathered into ticks; two running means one behind the other over a period of
 * the slowest fixture leave less than a twentieth of any swing that is not slower (the spectrum of
 * a triangle). What stands far off the median of a few neighbours is a spike unless the readings
 * swing as widely: a median itself makes slow waves of swings as long as it is. Judges events only;
 * no sample is changed. One thread; allocates nothing once made.
 */
final class Course {
  /**
   * Period of the slowest fixture thought of, 25 Hz: a kilogram cell with 300 g on it rings so. On
   * 20 random rigs of 25 cuts after short rests (seeds 20040 to 20059) half as much, and twice as
   * much, makes one force wrong by more than 5 %, and the errors a third and a tenth larger.
   */
  static final double SWING_NANOS = 40e6;

  /** An eighth of that: finer would cost more and show no more. */
  private static final double TICK_NANOS = 5e6;

  private static final int MOST_TICKS = 16;

  /**
   * Beside the swing, how far a reading may stand off the few beside it, in their own spreads. Half
   * or twice as many change nothing there.
   */
  private static final double SPREADS = 3;

  private final RunningMedian median = new RunningMedian();
  private final long[] sums = new long[MOST_TICKS];
  private final long[] means = new long[MOST_TICKS];
  private final int[] lows = new int[2 * MOST_TICKS];
  private final int[] highs = new int[2 * MOST_TICKS];
  private int perTick = 1;
  private int window = 1;
  private int inTick;
  private long sum;
  private int low;
  private int high;
  private int next;
  private int nextRange;
  private long sumOfSums;
  private long sumOfMeans;
  private double bandCounts;
  private double swing;

  /**
   * Begins anew, as if all readings had been this.
   *
   * @param bandCounts how far one reading may lie off those beside it at rest, counts
   */
  void restart(double periodNanos, int counts, double bandCounts) {
    median.restart(periodNanos, counts);
    this.bandCounts = bandCounts;
    swing = 0;
    perTick = (int) Math.max(1, TICK_NANOS / periodNanos);
    window = (int) Math.max(1, Math.min(MOST_TICKS, SWING_NANOS / (perTick * periodNanos) + 0.5));
    for (int i = 0; i < window; i++) {
      sums[i] = (long) perTick * counts;
      means[i] = window * sums[i];
    }
    Arrays.fill(lows, 0, memoryTicks(), counts);
    Arrays.fill(highs, 0, memoryTicks(), counts);
    nextRange = 0;
    sumOfSums = means[0];
    sumOfMeans = window * means[0];
    next = 0;
    clearTick();
  }

  private void clearTick() {
    inTick = 0;
    sum = 0;
    low = Integer.MAX_VALUE;
    high = Integer.MIN_VALUE;
  }

  /** Adds a reading; the median of it and the few before. */
  int add(int counts) {
    int middle = median.add(counts);
    int reading = median.centre();
    if (Math.abs(reading - (double) middle) > bandCounts + swing + SPREADS * median.spread()) {
      reading = middle;
    }
    inTick++;
    sum += reading;
    low = Math.min(low, reading);
    high = Math.max(high, reading);
    return middle;
  }

  /** Closes the tick at hand if it is full; whether it was. */
  boolean ticks() {
    if (inTick < perTick) {
      return false;
    }
    sumOfSums += sum - sums[next];
    sums[next] = sum;
    sumOfMeans += sumOfSums - means[next];
    means[next] = sumOfSums;
    lows[nextRange] = low;
    highs[nextRange] = high;
    nextRange = nextRange + 1 < memoryTicks() ? nextRange + 1 : 0;
    next = next + 1 < window ? next + 1 : 0;
    clearTick();
    swing = widest();
    return true;
  }

  /** After so many ticks nothing before counts in the level any more. */
  int memoryTicks() {
    return 2 * window - 1;
  }

  /** How many readings the level is a mean of. */
  int memoryReadings() {
    return perTick * memoryTicks();
  }

  /** Share of the level that two readings in a row make at most. */
  double readingShare() {
    return (2.0 * window - 1) / ((double) perTick * window * window);
  }

  /** Mean of the last readings, swings averaged out, counts. */
  double levelCounts() {
    return sumOfMeans / ((double) perTick * window * window);
  }

  /** Greatest less least of the readings that the level is a mean of, counts. */
  double swingCounts() {
    return swing;
  }

  private double widest() {
    int least = lows[0];
    int greatest = highs[0];
    for (int i = 1; i < memoryTicks(); i++) {
      least = Math.min(least, lows[i]);
      greatest = Math.max(greatest, highs[i]);
    }
    return (double) greatest - least;
  }
}
