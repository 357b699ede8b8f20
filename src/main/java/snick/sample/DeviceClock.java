package snick.sample;

/**
 * The device's microsecond counter, unwrapped to nanoseconds since the stream's first sample. A
 * 32-bit counter wraps after 71.6 min; that is followed. A counter that goes back otherwise is not
 * followed: the caller is told. Time that a device claims beyond 146 years stands still there.
 */
final class DeviceClock {
  /** The bits of a 32-bit counter. */
  static final long MASK_32 = 0xFFFF_FFFFL;

  /** A step back by more than half the counter's range is a wrap, not a step back. */
  private static final long HALF_RANGE = 1L << 31;

  private static final double WRAP_NANOS = 4_294_967_296e3;

  /** Device time goes no further, ns. */
  static final long MOST_NANOS = 1L << 62;

  /** A step may differ from what the sequence numbers promise by this factor, or by 2 s. */
  private static final double MOST_STRETCH = 4;

  private static final double MOST_PAUSE_NANOS = 2e9;

  private long nanos;
  private long lastMicros;
  private long wraps;

  /** Time of the last sample, ns. */
  long nanos() {
    return nanos;
  }

  /** Time {@code stepNanos}, 0 or more, after the last sample, ns. */
  private long nanosAfter(long stepNanos) {
    return stepNanos > MOST_NANOS - nanos ? MOST_NANOS : nanos + stepNanos;
  }

  /** How often the counter wrapped. */
  long wraps() {
    return wraps;
  }

  /** Begin anew at counter value {@code micros}, {@code stepNanos} after the last sample. */
  void restart(long micros, long stepNanos) {
    nanos = nanosAfter(stepNanos);
    lastMicros = micros;
  }

  /** Go on by {@code stepNanos} without looking at the counter. */
  void advance(long stepNanos) {
    nanos = nanosAfter(stepNanos);
  }

  /** The counter now stands {@code spanMicros} after the value last moved to. */
  void finishMove(long spanMicros) {
    long micros = lastMicros + spanMicros;
    if (micros > MASK_32) {
      wraps++;
    }
    lastMicros = micros & MASK_32;
  }

  /**
   * Move to 32-bit counter value {@code micros}.
   *
   * @param expectedNanos step that the sequence numbers promise, ns
   * @param manyMissing whether samples are missing, so that whole wraps may be missing too
   * @return false if the counter cannot have got there: it began anew
   */
  boolean moveTo32(long micros, double expectedNanos, boolean manyMissing) {
    double stepNanos = ((micros - lastMicros) & MASK_32) * 1e3;
    if (manyMissing && expectedNanos > stepNanos) {
      stepNanos += Math.rint((expectedNanos - stepNanos) / WRAP_NANOS) * WRAP_NANOS;
    }
    if (!plausible(stepNanos, expectedNanos)) {
      return false;
    }
    if (micros < lastMicros) {
      wraps++;
    }
    nanos = nanosAfter((long) stepNanos);
    lastMicros = micros;
    return true;
  }

  /**
   * Move to 32-bit counter value {@code micros} although it lies further on than one sample is
   * expected to.
   *
   * @return false if it does not: nothing was moved
   */
  boolean movePaused(long micros, double expectedNanos) {
    double stepNanos = ((micros - lastMicros) & MASK_32) * 1e3;
    if (plausible(stepNanos, expectedNanos)) {
      return false;
    }
    if (micros < lastMicros) {
      wraps++;
    }
    nanos = nanosAfter((long) stepNanos);
    lastMicros = micros;
    return true;
  }

  private static boolean plausible(double stepNanos, double expectedNanos) {
    boolean tooFar =
        stepNanos > MOST_STRETCH * expectedNanos && stepNanos > expectedNanos + MOST_PAUSE_NANOS;
    return !tooFar && stepNanos * MOST_STRETCH + MOST_PAUSE_NANOS >= expectedNanos;
  }

  /**
   * Move to a printed counter value, which may be wider than 32 bits.
   *
   * @return false if the counter went back without wrapping: it began anew
   */
  boolean moveToPrinted(long micros) {
    long stepMicros = micros - lastMicros;
    if (stepMicros < 0) {
      boolean wrapped = lastMicros <= MASK_32 && lastMicros - micros > HALF_RANGE;
      if (!wrapped) {
        return false;
      }
      stepMicros += MASK_32 + 1;
      wraps++;
    }
    nanos = nanosAfter(Math.min(stepMicros, MOST_NANOS / 1000) * 1000);
    lastMicros = micros;
    return true;
  }
}
