package snick.cut.rest;

import java.util.Arrays;

/**
 * The greatest of the last few integers, none negative. All are looked through each time: without a
 * branch, that costs less than to find out whether they must be. One thread; allocates nothing once
 * made.
 */
final class RecentGreatest {
  private final int[] values;
  private int next;

  RecentGreatest(int capacity) {
    values = new int[capacity];
  }

  /** Adds a value; if there are as many as are kept, the oldest goes. */
  void add(int value) {
    values[next] = value;
    next = next + 1 < values.length ? next + 1 : 0;
  }

  void clear() {
    Arrays.fill(values, 0);
    next = 0;
  }

  /** The greatest value; 0 if there is none. */
  int greatest() {
    int greatest = 0;
    for (int value : values) {
      greatest = Math.max(greatest, value);
    }
    return greatest;
  }
}
