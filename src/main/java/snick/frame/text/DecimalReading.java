package snick.frame.text;

/**
 * A decimal number as printed, and its value in whole units of 10^−d. Mutable, used again for every
 * line.
 */
final class DecimalReading {
  private static final long[] POWERS_OF_TEN = powersOfTen();
  private static final int MAX_DIGITS = 9;

  /** Decimals kept at least, should readings to come have more than the first. */
  private static final int USUAL_DIGITS = 3;

  /** Room left above the first reading when the unit is chosen. */
  private static final long HEADROOM = 16;

  /** Whole parts beyond this fit no int in any unit. */
  private static final long MAX_WHOLE = 4_000_000_000L;

  private boolean negative;
  private long whole;
  private boolean point;
  private long fraction;
  private int fractionDigits;
  private boolean moreFraction;
  private boolean rounded;

  private static long[] powersOfTen() {
    long[] powers = new long[19];
    powers[0] = 1;
    for (int i = 1; i < powers.length; i++) {
      powers[i] = powers[i - 1] * 10;
    }
    return powers;
  }

  /**
   * Set.
   *
   * @param fraction the first 17 digits behind the point, as a whole number
   * @param fractionDigits how many digits {@code fraction} has
   * @param moreFraction whether digits other than 0 follow
   */
  void set(
      boolean negative,
      long whole,
      boolean point,
      long fraction,
      int fractionDigits,
      boolean moreFraction) {
    this.negative = negative;
    this.whole = whole;
    this.point = point;
    this.fraction = fraction;
    this.fractionDigits = fractionDigits;
    this.moreFraction = moreFraction;
  }

  /** Whether it was printed with a decimal point. */
  boolean hasPoint() {
    return point;
  }

  /** Whether the last {@link #inUnits} lost digits. */
  boolean rounded() {
    return rounded;
  }

  /**
   * Decimals to keep for a stream in which this reading is the first of its kind: those printed, at
   * least 3 and at most 9, as far as 16 times this reading (at least 16) fits an int.
   */
  int suitableDigits() {
    int digits = Math.min(MAX_DIGITS, Math.max(USUAL_DIGITS, fractionDigits));
    long room = HEADROOM * (Math.min(whole, MAX_WHOLE) + 1);
    while (digits > 0 && room > Integer.MAX_VALUE / POWERS_OF_TEN[digits]) {
      digits--;
    }
    return digits;
  }

  /** Whether the reading in units of 10^−digits, rounded, is an int. */
  boolean fits(int digits) {
    long value = inUnits(digits);
    return whole <= MAX_WHOLE && value == (int) value;
  }

  /** The reading in units of 10^−digits, rounded half to even; exact if {@link #fits}. */
  long inUnits(int digits) {
    rounded = false;
    long units = Math.min(whole, MAX_WHOLE) * POWERS_OF_TEN[digits];
    if (point) {
      units += fractionInUnits(digits, units);
    }
    return negative ? -units : units;
  }

  private long fractionInUnits(int digits, long wholeUnits) {
    if (fractionDigits <= digits) {
      return fraction * POWERS_OF_TEN[digits - fractionDigits];
    }
    long unit = POWERS_OF_TEN[fractionDigits - digits];
    long quotient = fraction / unit;
    long rest = fraction - quotient * unit;
    rounded = rest != 0 || moreFraction;
    long twice = rest * 2;
    boolean odd = ((wholeUnits + quotient) & 1) != 0;
    boolean up = twice > unit || (twice == unit && (moreFraction || odd));
    return up ? quotient + 1 : quotient;
  }
}
