package snick.cut.rest;

import java.util.Arrays;

/**
 * The last few values, kept in order, so that their median costs no sorting. One thread; allocates
 * nothing once made.
 */
final class SortedWindow {
  private final double[] inOrder;
  private final double[] inTime;
  private int size;
  private int next;

  SortedWindow(int capacity) {
    inOrder = new double[capacity];
    inTime = new double[capacity];
  }

  /** Adds a value; if the window is full, the oldest goes. */
  void add(double value) {
    int at = size == inOrder.length ? placeOf(inTime[next]) : size++;
    inTime[next] = value;
    next = next + 1 < inTime.length ? next + 1 : 0;
    for (; at + 1 < size && inOrder[at + 1] < value; at++) {
      inOrder[at] = inOrder[at + 1];
    }
    for (; at > 0 && inOrder[at - 1] > value; at--) {
      inOrder[at] = inOrder[at - 1];
    }
    inOrder[at] = value;
  }

  private int placeOf(double value) {
    int at = 0;
    while (at + 1 < size && inOrder[at] != value) {
      at++;
    }
    return at;
  }

  /** Puts this in the place of every value. */
  void replaceAll(double value) {
    Arrays.fill(inOrder, value);
    Arrays.fill(inTime, value);
  }

  void clear() {
    size = 0;
    next = 0;
  }

  /** The middle value, or the mean of the middle two; only if there is a value. */
  double median() {
    return 0.5 * (inOrder[(size - 1) / 2] + inOrder[size / 2]);
  }

  /** The middle value, or the greater of the middle two; only if there is a value. */
  double upperMedian() {
    return inOrder[size / 2];
  }
}
