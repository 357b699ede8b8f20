package snick.exchange;

import com.fasterxml.jackson.core.io.NumberOutput;
import java.util.OptionalLong;

/**
 * Numbers as decimal text that reads back to the same number, with the same bytes on every system.
 * Times are whole nanoseconds inside and seconds outside, without rounding.
 */
final class Decimals {
  private static final long NANOS_PER_SECOND = 1_000_000_000L;
  private static final int DECIMALS = 9;
  private static final int MOST_WHOLE_DIGITS = 9;
  private static final int LONGEST_REAL = 30;

  private Decimals() {}

  /** {@code nanos} ns in s, exact, without trailing zeros: {@code 1.0125}. */
  static String seconds(long nanos) {
    long magnitude = Math.abs(nanos);
    long whole = magnitude / NANOS_PER_SECOND;
    long fraction = magnitude % NANOS_PER_SECOND;
    StringBuilder text = new StringBuilder(20);
    if (nanos < 0) {
      text.append('-');
    }
    text.append(whole);
    if (fraction != 0) {
      text.append('.');
      String digits = Long.toString(NANOS_PER_SECOND + fraction);
      int end = digits.length();
      while (digits.charAt(end - 1) == '0') {
        end--;
      }
      text.append(digits, 1, end);
    }
    return text.toString();
  }

  /**
   * Nanoseconds of {@code text} in s; empty if it is no decimal of at most nine and nine digits.
   */
  static OptionalLong nanos(String text) {
    int at = text.startsWith("-") ? 1 : 0;
    int point = text.indexOf('.');
    int wholeEnd = point < 0 ? text.length() : point;
    int fractionDigits = point < 0 ? 0 : text.length() - point - 1;
    boolean shaped =
        wholeEnd > at
            && wholeEnd - at <= MOST_WHOLE_DIGITS
            && fractionDigits <= DECIMALS
            && (point < 0 || fractionDigits > 0);
    if (!shaped || !digits(text, at, wholeEnd) || !digits(text, wholeEnd + 1, text.length())) {
      return OptionalLong.empty();
    }
    long nanos = Long.parseLong(text, at, wholeEnd, 10) * NANOS_PER_SECOND;
    if (fractionDigits > 0) {
      long fraction = Long.parseLong(text, point + 1, text.length(), 10);
      for (int i = fractionDigits; i < DECIMALS; i++) {
        fraction *= 10;
      }
      nanos += fraction;
    }
    return OptionalLong.of(at == 1 ? -nanos : nanos);
  }

  private static boolean digits(String text, int from, int to) {
    for (int i = from; i < to; i++) {
      if (text.charAt(i) < '0' || text.charAt(i) > '9') {
        return false;
      }
    }
    return true;
  }

  /** Shortest decimal that reads back to {@code value}; empty text for NaN, INF as infinity. */
  static String real(double value) {
    if (Double.isNaN(value)) {
      return "";
    }
    if (Double.isInfinite(value)) {
      return value > 0 ? "INF" : "-INF";
    }
    return NumberOutput.toString(value, true);
  }

  /** Whether {@code text} is a finite decimal number as {@link #real} writes them. */
  static boolean isReal(String text) {
    if (text.isEmpty() || text.length() > LONGEST_REAL) {
      return false;
    }
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if ((c < '0' || c > '9') && c != '.' && c != '-' && c != '+' && c != 'E' && c != 'e') {
        return false;
      }
    }
    try {
      return Double.isFinite(Double.parseDouble(text));
    } catch (NumberFormatException e) {
      return false;
    }
  }
}
