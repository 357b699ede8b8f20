package snick.frame.text;

/**
 * Reads a time as ISO 8601 writes it, with or without its date, in µs since some moment. Without a
 * date it goes on over midnight. An offset from UTC is left out of account: it is the same in every
 * line.
 */
final class TimeOfDay {
  /**
   * Added to what is no counter of 32 bits: such a one wraps at 2³² µs, which a time before that
   * could be taken for.
   */
  static final long BEYOND_A_COUNTER_OF_32_BITS = 1L << 40;

  private static final long MICROS_PER_SECOND = 1_000_000;
  private static final long MICROS_PER_DAY = 86_400 * MICROS_PER_SECOND;
  private static final int MICRO_DIGITS = 6;
  private static final int DATE_BYTES = 10;

  private byte[] line = {};
  private long daysOver;
  private long lastMicros;
  private long micros;

  long micros() {
    return micros;
  }

  /** Whether it is one; it fits the pattern already. */
  boolean read(byte[] bytes, int from, int end) {
    line = bytes;
    boolean dated = bytes[from + 2] != ':';
    int at = dated ? from + DATE_BYTES + 1 : from;
    long hour = two(at);
    long minute = two(at + 3);
    long second = two(at + 6);
    long timeMicros =
        ((hour * 60 + minute) * 60 + second) * MICROS_PER_SECOND + fraction(at + 8, end);
    if (hour > 23 || minute > 59 || second > 60) {
      return false;
    }
    long days =
        dated
            ? days(two(from) * 100 + two(from + 2), two(from + 5), two(from + 8))
            : over(timeMicros);
    micros = BEYOND_A_COUNTER_OF_32_BITS + days * MICROS_PER_DAY + timeMicros;
    return true;
  }

  /** Midnights passed: the time of day went back by more than half a day. */
  private long over(long timeMicros) {
    if (lastMicros - timeMicros > MICROS_PER_DAY / 2) {
      daysOver++;
    }
    lastMicros = timeMicros;
    return daysOver;
  }

  private long two(int at) {
    return (line[at] - '0') * 10L + line[at + 1] - '0';
  }

  private long fraction(int pointAt, int end) {
    long value = 0;
    int digits = 0;
    if (pointAt < end && (line[pointAt] == '.' || line[pointAt] == ',')) {
      int at = pointAt + 1;
      while (at < end && digits < MICRO_DIGITS && LineFields.isDigit(line[at])) {
        value = value * 10 + line[at++] - '0';
        digits++;
      }
    }
    for (; digits < MICRO_DIGITS; digits++) {
      value *= 10;
    }
    return value;
  }

  /**
   * Days since 1 March of the year 0 in the Gregorian calendar: February is a year's last month.
   */
  private static long days(long year, long month, long day) {
    long y = month > 2 ? year : year - 1;
    long monthsSinceMarch = (month + 9) % 12;
    return y * 365 + y / 4 - y / 100 + y / 400 + (153 * monthsSinceMarch + 2) / 5 + day - 1;
  }
}
