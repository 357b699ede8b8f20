package snick.sample;

import java.util.Arrays;
import java.util.OptionalDouble;
import java.util.OptionalLong;

/**
 * Maps device time to host time from arrival times, robustly. A sample arrives at its device time
 * plus a fixed offset plus a delay that is never negative; so the smallest difference in each block
 * of arrivals is nearest to the offset. The line through the blocks' smallest differences is the
 * median of all pairwise slopes (Theil 1950, Sen 1968), which up to 29 % of disturbed blocks cannot
 * spoil.
 *
 * <p>Pure; one thread. Keeps at most {@value #MOST_BLOCKS} blocks: when full, neighbours are merged
 * and blocks become twice as long.
 */
public final class HostClockFit {
  private static final int MOST_BLOCKS = 64;
  private static final int LEAST_BLOCKS_FOR_RATE = 4;
  private static final long FIRST_BLOCK_NANOS = 1_000_000_000L;

  private final long[] deviceNanos = new long[MOST_BLOCKS];
  private final long[] differenceNanos = new long[MOST_BLOCKS];
  private int blocks;
  private long blockNanos = FIRST_BLOCK_NANOS;
  private long blockStartNanos;

  /**
   * One arrival.
   *
   * @param deviceNanosOfSample device time of the newest sample that arrived, ns
   * @param hostNanosOfArrival host's monotonic time when it was read, ns
   */
  public void observe(long deviceNanosOfSample, long hostNanosOfArrival) {
    long difference = hostNanosOfArrival - deviceNanosOfSample;
    if (blocks == 0 || deviceNanosOfSample - blockStartNanos >= blockNanos) {
      open(deviceNanosOfSample, difference);
    } else if (difference < differenceNanos[blocks - 1]) {
      differenceNanos[blocks - 1] = difference;
      deviceNanos[blocks - 1] = deviceNanosOfSample;
    }
  }

  /** Device time began anew, or the link broke: earlier arrivals say nothing of later ones. */
  public void forget() {
    blocks = 0;
    blockNanos = FIRST_BLOCK_NANOS;
  }

  private void open(long deviceNanosOfSample, long difference) {
    if (blocks == MOST_BLOCKS) {
      mergeNeighbours();
    }
    deviceNanos[blocks] = deviceNanosOfSample;
    differenceNanos[blocks] = difference;
    blocks++;
    blockStartNanos = deviceNanosOfSample;
  }

  private void mergeNeighbours() {
    for (int i = 0; i < MOST_BLOCKS / 2; i++) {
      int smaller = differenceNanos[2 * i] <= differenceNanos[2 * i + 1] ? 2 * i : 2 * i + 1;
      deviceNanos[i] = deviceNanos[smaller];
      differenceNanos[i] = differenceNanos[smaller];
    }
    blocks = MOST_BLOCKS / 2;
    blockNanos *= 2;
  }

  /**
   * By how much the device's clock is slow against the host's, in parts per million (positive: the
   * device counts too few microseconds); empty until four blocks are full.
   */
  public OptionalDouble rateErrorPpm() {
    return blocks < LEAST_BLOCKS_FOR_RATE
        ? OptionalDouble.empty()
        : OptionalDouble.of(medianSlope() * 1e6);
  }

  /** Host's monotonic time of device time {@code nanos}, ns; empty before the first arrival. */
  public OptionalLong hostNanos(long nanos) {
    if (blocks == 0) {
      return OptionalLong.empty();
    }
    double slope = blocks < LEAST_BLOCKS_FOR_RATE ? 0 : medianSlope();
    long origin = deviceNanos[0];
    double[] offsets = new double[blocks];
    for (int i = 0; i < blocks; i++) {
      offsets[i] = differenceNanos[i] - slope * (deviceNanos[i] - origin);
    }
    double offset = median(offsets, blocks);
    return OptionalLong.of(nanos + Math.round(offset + slope * (nanos - origin)));
  }

  private double medianSlope() {
    double[] slopes = new double[blocks * (blocks - 1) / 2];
    int count = 0;
    for (int i = 0; i < blocks; i++) {
      for (int j = i + 1; j < blocks; j++) {
        long run = deviceNanos[j] - deviceNanos[i];
        if (run > 0) {
          slopes[count++] = (double) (differenceNanos[j] - differenceNanos[i]) / run;
        }
      }
    }
    return median(slopes, count);
  }

  private static double median(double[] values, int count) {
    Arrays.sort(values, 0, count);
    return count == 0 ? 0 : (values[(count - 1) / 2] + values[count / 2]) / 2;
  }
}
