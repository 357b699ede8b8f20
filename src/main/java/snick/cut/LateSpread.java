package snick.cut;

/**
 * How far the late readings scatter beside the loading: which are usable, how much the fixture
 * rings once the filament has parted, and whether the model misfits. Ringing is known from a few
 * readings only, so steps of a factor √2 in its variance do, and what depends on it can be kept.
 */
record LateSpread(int usableBits, int ringStep, double misfit) {
  private static final double RING_SHARE = 4;
  private static final double STEPS_PER_OCTAVE = 2;

  /** Variances below a quarter of the noise's are not told from none. */
  private static final double LEAST_RINGING = 0.25;

  /** Greater ones outweigh any reading. */
  private static final int MOST_STEP = 63;

  /**
   * Without misfit.
   *
   * @param ringing variance of the ringing right after the break, noises squared
   */
  static LateSpread of(RampWindow w, double ringing) {
    return new LateSpread(bits(w), step(ringing), 1);
  }

  private static int bits(RampWindow w) {
    int bits = 0;
    for (int i = 0; i < RampWindow.LATE; i++) {
      bits |= w.lateUsable[i] ? (1 << i) : 0;
    }
    return bits;
  }

  private static int step(double ringing) {
    if (!(ringing > LEAST_RINGING)) {
      return 0;
    }
    double octaves = Math.log(ringing / LEAST_RINGING) / Math.log(2);
    return (int) Math.min(MOST_STEP, 1 + Math.round(STEPS_PER_OCTAVE * octaves));
  }

  LateSpread of(RampWindow w) {
    return new LateSpread(bits(w), ringStep, misfit);
  }

  /** With a factor of 1 or more on the deviation of the late readings. */
  LateSpread misfitting(double factor) {
    return new LateSpread(usableBits, ringStep, factor);
  }

  /** Whether others will be like it, so that it pays to keep what depends on it. */
  boolean usual() {
    return misfit == 1;
  }

  /** Which late readings are usable. */
  int[] places() {
    int[] places = new int[Integer.bitCount(usableBits)];
    int bits = usableBits;
    for (int i = 0; i < places.length; i++) {
      places[i] = Integer.numberOfTrailingZeros(bits);
      bits &= bits - 1;
    }
    return places;
  }

  /** Variance of a late reading of which this share was seen after the break, noises squared. */
  double variance(double gone) {
    double ringing =
        ringStep == 0 ? 0 : LEAST_RINGING * Math.pow(2, (ringStep - 1) / STEPS_PER_OCTAVE);
    return misfit * misfit * (1 + RING_SHARE * ringing * Math.max(0, Math.min(1, gone)));
  }

  /** A number that differs for each usual spread. */
  int key() {
    return (usableBits * (MOST_STEP + 1)) + ringStep;
  }
}
