package snick.frame.text;

import snick.frame.message.ReadingBatch;

/**
 * Reads the commonest lines, many in one call: {@code counts} or {@code micros,counts}, decimal
 * digits without point, space or checksum, a minus sign at most. What it takes, {@link LineParser}
 * takes for the same reading; every other line is left to that.
 */
final class PlainLines {
  private static final int MOST_MICROS_DIGITS = 18;

  /** So many always fit an int. */
  private static final int MOST_COUNTS_DIGITS = 9;

  private int cursor;
  private int digits;

  /**
   * Adds to {@code batch} what whole plain lines begin at {@code from}, as far as it takes them.
   *
   * @return where the first line begins that was not taken
   */
  int read(byte[] bytes, int from, int end, ReadingBatch batch) {
    int lineFrom = from;
    while (line(bytes, lineFrom, end, batch)) {
      lineFrom = cursor;
    }
    return lineFrom;
  }

  /** Takes one line; leaves the cursor behind its line feed. */
  private boolean line(byte[] bytes, int from, int end, ReadingBatch batch) {
    long micros = number(bytes, from, end);
    boolean timed = cursor < end && bytes[cursor] == ',';
    if (!batch.takes(timed)) {
      return false;
    }
    int countsFrom = from;
    if (timed) {
      if (digits < 1 || digits > MOST_MICROS_DIGITS) {
        return false;
      }
      countsFrom = cursor + 1;
    }
    boolean negative = countsFrom < end && bytes[countsFrom] == '-';
    long counts = timed || negative ? number(bytes, countsFrom + (negative ? 1 : 0), end) : micros;
    if (digits < 1 || digits > MOST_COUNTS_DIGITS || !lineEnds(bytes, end)) {
      return false;
    }
    batch.add(timed, micros, (int) (negative ? -counts : counts));
    return true;
  }

  /** Digits from {@code from} on; leaves the cursor behind them. */
  private long number(byte[] bytes, int from, int end) {
    int at = from;
    long sum = 0;
    while (at < end && bytes[at] >= '0' && bytes[at] <= '9') {
      sum = sum * 10 + (bytes[at] - '0');
      at++;
    }
    cursor = at;
    digits = at - from;
    return sum;
  }

  private boolean lineEnds(byte[] bytes, int end) {
    int at = cursor;
    if (at < end && bytes[at] == '\r') {
      at++;
    }
    cursor = at + 1;
    return at < end && bytes[at] == '\n';
  }
}
