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
  /** Of a step between its calm readings, the time from 90 % to 10 %. */
  private static final double STEEP_SHARE = 0.6;

  double periods() {
    return to10 - from90;
  }

  /** The first step alone, as a fall of its own. */
  Fall firstStep() {
    if (steps == 1) {
      return this;
    }
    double middle = 0.5 * (firstFrom + firstTo);
    double half = 0.5 * STEEP_SHARE * (firstTo - firstFrom);
    return new Fall(firstFrom, firstTo, middle - half, middle + half, 1, firstFrom, firstTo);
  }
}
