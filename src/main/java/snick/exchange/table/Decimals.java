package snick.exchange.table;

import com.fasterxml.jackson.core.io.NumberInput;
import com.fasterxml.jackson.core.io.NumberOutput;
import java.math.BigDecimal;
import java.util.OptionalDouble;
import java.util.OptionalLong;

/**
 * Numbers as decimal text that reads back to the same number, with the same bytes on every system.
 * Times are whole nanoseconds inside and seconds outside, without rounding.
 */
public final class Decimals {
  private static final int DECIMALS = 9;
  private static final int MOST_WHOLE_DIGITS = 9;
  private static final int MOST_DIGITS = 18;
  private static final int LONGEST_REAL = 30;

  private Decimals() {}

  /** {@code nanos} ns in s, exact, without trailing zeros: {@code 1.0125}. */
  public static String seconds(long nanos) {
    return BigDecimal.valueOf(nanos, DECIMALS).stripTrailingZeros().toPlainString();
  }

  /**
   * Nanoseconds of the characters from {@code from} to {@code to}, in s; empty if they are no
   * decimal of at most nine and nine digits.
   */
  public static OptionalLong nanos(char[] text, int from, int to) {
    int start = from < to && text[from] == '-' ? from + 1 : from;
    int point = start;
    while (point < to && text[point] != '.') {
      point++;
    }
    int decimals = Math.max(to - point - 1, 0);
    boolean shaped =
        point > start
            && point - start <= MOST_WHOLE_DIGITS
            && decimals <= DECIMALS
            && (point == to || decimals > 0)
            && digits(text, start, point)
            && digits(text, Math.min(point + 1, to), to);
    if (!shaped) {
      return OptionalLong.empty();
    }
    long nanos = number(text, start, point, 0);
    nanos = number(text, Math.min(point + 1, to), to, nanos);
    for (int i = decimals; i < DECIMALS; i++) {
      nanos *= 10;
    }
    return OptionalLong.of(start > from ? -nanos : nanos);
  }

  /**
   * The whole number in the characters from {@code from} to {@code to}; empty if there is none of
   * at most 18 digits.
   */
  static OptionalLong whole(char[] text, int from, int to) {
    int start = from < to && text[from] == '-' ? from + 1 : from;
    if (start == to || to - start > MOST_DIGITS || !digits(text, start, to)) {
      return OptionalLong.empty();
    }
    long value = number(text, start, to, 0);
    return OptionalLong.of(start > from ? -value : value);
  }

  private static boolean digits(char[] text, int from, int to) {
    for (int i = from; i < to; i++) {
      if (text[i] < '0' || text[i] > '9') {
        return false;
      }
    }
    return true;
  }

  private static long number(char[] text, int from, int to, long before) {
    long value = before;
    for (int i = from; i < to; i++) {
      value = 10 * value + (text[i] - '0');
    }
    return value;
  }

  /** Shortest decimal that reads back to {@code value}; empty text for NaN, INF as infinity. */
  public static String real(double value) {
    if (Double.isNaN(value)) {
      return "";
    }
    if (Double.isInfinite(value)) {
      return value > 0 ? "INF" : "-INF";
    }
    return NumberOutput.toString(value, true);
  }

  /**
   * The finite number that {@link #real} writes as the characters from {@code from} to {@code to};
   * empty if there is none.
   */
  public static OptionalDouble real(char[] text, int from, int to) {
    if (from == to || to - from > LONGEST_REAL || !isPlain(text, from, to)) {
      return OptionalDouble.empty();
    }
    try {
      double value = NumberInput.parseDouble(text, from, to - from, true);
      return Double.isFinite(value) ? OptionalDouble.of(value) : OptionalDouble.empty();
    } catch (NumberFormatException e) {
      return OptionalDouble.empty();
    }
  }

  private static boolean isPlain(char[] text, int from, int to) {
    for (int i = from; i < to; i++) {
      char c = text[i];
      if ((c < '0' || c > '9') && c != '.' && c != '-' && c != '+' && c != 'E' && c != 'e') {
        return false;
      }
    }
    return true;
  }
}
