package snick.frame.text;

import snick.frame.message.FrameSink;

/**
 * The unit in which the readings of a stream are told: 1, or 10^−d since they have decimals. It is
 * chosen at the first reading with a point, and again at the second reading in a row that does not
 * fit.
 */
final class StreamUnit {
  private int digits;
  private int saidDigits;
  private boolean decimal;
  private int misfits;

  /** Whether readings are told as they are, and were so far. */
  boolean isOne() {
    return digits == 0 && saidDigits == 0;
  }

  /** Whether the reading can be told in the unit, which may be chosen by it. */
  boolean suits(DecimalReading reading) {
    boolean firstPoint = reading.hasPoint() && !decimal;
    if (!firstPoint && reading.fits(digits)) {
      misfits = 0;
      return true;
    }
    misfits = firstPoint ? 0 : misfits + 1;
    boolean choose = firstPoint || (decimal && misfits > 1);
    int chosen = reading.suitableDigits();
    if (!choose || !reading.fits(chosen)) {
      return false;
    }
    misfits = 0;
    decimal = true;
    digits = chosen;
    return true;
  }

  /** A reading that suits, in the unit; the unit is told before where it is another. */
  int told(DecimalReading reading, FrameSink sink) {
    if (digits != saidDigits) {
      saidDigits = digits;
      sink.decimals(digits);
    }
    return (int) reading.inUnits(digits);
  }

  /** Whole readings that fit came in between. */
  void wholeOnes() {
    misfits = 0;
  }

  /** Begin anew; what was said last stands. */
  void forget() {
    decimal = false;
    digits = 0;
    misfits = 0;
  }
}
