package snick.quantity;

/**
 * Converter output rate.
 *
 * @param hertz samples per second, above 0 and at most 100 000
 */
public record SampleRate(double hertz) {
  private static final double LIMIT_HERTZ = 100_000;

  public SampleRate {
    if (!(hertz > 0 && hertz <= LIMIT_HERTZ)) {
      throw new IllegalArgumentException(
          "sample rate " + hertz + " Hz is outside 0 Hz (excluded) to 100000 Hz");
    }
  }

  /** Time from one sample to the next, in nanoseconds. */
  public double periodNanos() {
    return 1e9 / hertz;
  }
}
