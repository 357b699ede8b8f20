package snick.frame.text;

/**
 * Cuts a text line into fields, and finds the number or the time of day in each: what stands before
 * it is its label, what stands behind it its unit. One object is used again for every line.
 */
final class LineFields {
  /** Separates fields where any number of spaces and tabs does. */
  static final byte SPACES = ' ';

  /** What a field holds. */
  enum Kind {
    TEXT,
    NUMBER,
    TIME
  }

  private final int[] from = new int[Columns.MOST];
  private final int[] valueFrom = new int[Columns.MOST];
  private final int[] valueEnd = new int[Columns.MOST];
  private final int[] end = new int[Columns.MOST];
  private final Kind[] kind = new Kind[Columns.MOST];
  private int size;

  /** Number of fields of the last line. */
  int size() {
    return size;
  }

  int from(int field) {
    return from[field];
  }

  /** Where the number or time begins. */
  int valueFrom(int field) {
    return valueFrom[field];
  }

  int valueEnd(int field) {
    return valueEnd[field];
  }

  int end(int field) {
    return end[field];
  }

  Kind kind(int field) {
    return kind[field];
  }

  /**
   * Cut a line.
   *
   * @param separator a byte, or {@link #SPACES}
   * @return whether it has at most 32 fields
   */
  boolean cut(byte[] line, int lineFrom, int lineEnd, byte separator) {
    size = 0;
    return separator == SPACES
        ? cutAtSpaces(line, lineFrom, lineEnd)
        : cutAt(line, lineFrom, lineEnd, separator);
  }

  private boolean cutAt(byte[] line, int lineFrom, int lineEnd, byte separator) {
    int begin = lineFrom;
    for (int at = lineFrom; at <= lineEnd; at++) {
      if (at == lineEnd || line[at] == separator) {
        if (size == Columns.MOST) {
          return false;
        }
        field(line, begin, valueBegin(line, begin, at), at, separator != ',');
        begin = at + 1;
      }
    }
    return true;
  }

  /** A word that begins no number belongs to the label of the next field, or ends the last. */
  private boolean cutAtSpaces(byte[] line, int lineFrom, int lineEnd) {
    int begin = lineFrom;
    int at = lineFrom;
    while (at < lineEnd) {
      int value = valueBegin(line, at, wordEnd(line, at, lineEnd));
      int stop = wordEnd(line, at, lineEnd);
      if (value < stop) {
        if (size == Columns.MOST) {
          return false;
        }
        int timeEnd = timeEnd(line, value, lineEnd);
        stop = Math.max(stop, timeEnd);
        field(line, begin, value, stop, true);
        begin = stop;
      }
      at = stop;
      while (at < lineEnd && isSpace(line[at])) {
        at++;
      }
    }
    if (size > 0) {
      field(line, from[--size], valueFrom[size], lineEnd, true);
    }
    return true;
  }

  private static int wordEnd(byte[] line, int at, int lineEnd) {
    int stop = at;
    while (stop < lineEnd && !isSpace(line[stop])) {
      stop++;
    }
    return stop;
  }

  private void field(byte[] line, int begin, int value, int stop, boolean commaIsPoint) {
    int field = size++;
    from[field] = begin;
    valueFrom[field] = value;
    end[field] = stop;
    int timeEnd = timeEnd(line, value, stop);
    valueEnd[field] = timeEnd > value ? timeEnd : numberEnd(line, value, stop, commaIsPoint);
    if (value == stop || hasDigit(line, valueEnd[field], stop)) {
      kind[field] = Kind.TEXT;
    } else {
      kind[field] = timeEnd > value ? Kind.TIME : Kind.NUMBER;
    }
  }

  /** Where a number or time begins: a digit, sign or point that continues no word; else the end. */
  private static int valueBegin(byte[] line, int begin, int stop) {
    int at = begin;
    while (at < stop) {
      if (isWordLetter(line[at])) {
        while (at < stop && (isWordLetter(line[at]) || isDigit(line[at]))) {
          at++;
        }
      } else if (isDigit(line[at]) || beginsNumber(line, at, stop)) {
        return at;
      } else {
        at++;
      }
    }
    return stop;
  }

  private static boolean beginsNumber(byte[] line, int at, int stop) {
    int next = line[at] == '-' || line[at] == '+' ? at + 1 : at;
    if (next < stop && line[next] == '.') {
      next++;
    }
    return next > at && next < stop && isDigit(line[next]);
  }

  private static int numberEnd(byte[] line, int value, int stop, boolean commaIsPoint) {
    int at = value;
    if (at < stop && (line[at] == '-' || line[at] == '+')) {
      at++;
    }
    at = digitsEnd(line, at, stop);
    boolean comma = commaIsPoint && at + 1 < stop && line[at] == ',' && isDigit(line[at + 1]);
    return comma || (at < stop && line[at] == '.') ? digitsEnd(line, at + 1, stop) : at;
  }

  /** Behind {@code 2025-11-02T18:00:00.25Z} or {@code 18:00:00}; {@code value} if none is there. */
  private static int timeEnd(byte[] line, int value, int stop) {
    int at = value;
    if (matches(line, at, stop, "0000-00-00")) {
      at += 10;
      if (at == stop || (line[at] != 'T' && line[at] != ' ')) {
        return value;
      }
      at++;
    }
    if (!matches(line, at, stop, "00:00:00")) {
      return value;
    }
    at += 8;
    if (at < stop && (line[at] == '.' || line[at] == ',')) {
      at = digitsEnd(line, at + 1, stop);
    }
    if (at < stop && line[at] == 'Z') {
      return at + 1;
    }
    return matches(line, at, stop, "+00:00") || matches(line, at, stop, "-00:00") ? at + 6 : at;
  }

  private static boolean matches(byte[] line, int at, int stop, String pattern) {
    boolean same = stop - at >= pattern.length();
    for (int i = 0; same && i < pattern.length(); i++) {
      char wanted = pattern.charAt(i);
      same = wanted == '0' ? isDigit(line[at + i]) : line[at + i] == wanted;
    }
    return same;
  }

  private static int digitsEnd(byte[] line, int begin, int stop) {
    int at = begin;
    while (at < stop && isDigit(line[at])) {
      at++;
    }
    return at;
  }

  private static boolean hasDigit(byte[] line, int begin, int stop) {
    for (int at = begin; at < stop; at++) {
      if (isDigit(line[at])) {
        return true;
      }
    }
    return false;
  }

  static boolean isDigit(byte b) {
    return b >= '0' && b <= '9';
  }

  private static boolean isWordLetter(byte b) {
    return (b >= 'a' && b <= 'z') || (b >= 'A' && b <= 'Z') || b == '_' || b < 0;
  }

  static boolean isSpace(byte b) {
    return b == ' ' || b == '\t' || b == '\r';
  }
}
