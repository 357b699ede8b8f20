package snick.cut;

/**
 * The fall that ends a loading.
 *
 * @param top index of the last sample before the fall at 90 % of the height or more
 * @param bottom index of the first sample at 10 % or less
 * @param from90 time of the 90 % crossing, periods
 * @param to10 time of the 10 % crossing, periods
 * @param steps distinct steps in it, 1 or more
 * @param firstFrom index of the sample before the first step
 * @param firstTo index of the sample at which the first step is over
 */
record Fall(
    int top, int bottom, double from90, double to10, int steps, int firstFrom, int firstTo) {
  double periods() {
    return to10 - from90;
  }

  /** The first step alone, as a fall of its own. */
  Fall firstStep() {
    return steps == 1 ? this : new Fall(firstFrom, firstTo, from90, to10, 1, firstFrom, firstTo);
  }
}
