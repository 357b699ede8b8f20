package snick.cut;

/**
 * The fall that ends a loading.
 *
 * @param top index of the last sample before the fall at 90 % of the height or more
 * @param bottom index of the first sample at 10 % or less
 * @param from90 time of the 90 % crossing, periods
 * @param to10 time of the 10 % crossing, periods
 * @param steps distinct steps in it, 1 or more
 */
record Fall(int top, int bottom, double from90, double to10, int steps) {
  double periods() {
    return to10 - from90;
  }
}
