package snick.frame.text;

import java.util.Optional;
import snick.frame.message.UntrustedText;

/**
 * Parses one text line straight from bytes. Holds the fields of the last line parsed; allocates
 * only for announcements.
 */
public final class LineParser {
  /** What a line is. */
  public enum Kind {
    BLANK,
    COMMENT,
    ANNOUNCEMENT,
    READING,
    TIMED_READING,
    BAD_CHECK,
    MALFORMED
  }

  public static final int BYTE_ORDER_MARK_BYTES = 3;
  private static final byte[] BYTE_ORDER_MARK = {(byte) 0xEF, (byte) 0xBB, (byte) 0xBF};
  private static final int MAX_WHOLE_DIGITS = 18;
  private static final int KEPT_FRACTION_DIGITS = 17;
  private static final int MAX_KEY_BYTES = 64;
  private static final int CHECK_BYTES = 3;

  private final DecimalReading reading = new DecimalReading();
  private Optional<ColumnReader> columns = Optional.empty();
  private long micros;
  private boolean checked;
  private String key = "";
  private String value = "";

  private int cursor;
  private boolean negative;
  private boolean signed;
  private boolean point;
  private long whole;
  private long fraction;
  private int fractionDigits;
  private boolean moreFraction;

  /** Take lines from now on as {@code columns}; empty: as the protocol asks. */
  void columns(Optional<ColumnReader> columns) {
    this.columns = columns;
  }

  /** Whether lines are taken in columns. */
  boolean inColumns() {
    return columns.isPresent();
  }

  /** The reading of the last reading line. */
  DecimalReading reading() {
    return reading;
  }

  /** Device clock of the last timed reading, µs. */
  long micros() {
    return micros;
  }

  /** Whether the last reading line carried a (good) checksum. */
  boolean checked() {
    return checked;
  }

  String key() {
    return key;
  }

  String value() {
    return value;
  }

  /** Whether bytes are, or begin, the byte order mark of UTF-8. */
  public static boolean isByteOrderMark(byte[] bytes, int from, int length) {
    boolean same = length <= BYTE_ORDER_MARK_BYTES;
    for (int i = 0; same && i < length; i++) {
      same = bytes[from + i] == BYTE_ORDER_MARK[i];
    }
    return same;
  }

  /** Parse a line without its line feed. */
  public Kind parse(byte[] bytes, int lineFrom, int lineEnd) {
    boolean marked =
        lineEnd - lineFrom >= BYTE_ORDER_MARK_BYTES
            && isByteOrderMark(bytes, lineFrom, BYTE_ORDER_MARK_BYTES);
    int from = marked ? lineFrom + BYTE_ORDER_MARK_BYTES : lineFrom;
    int end = trimmedEnd(bytes, from, lineEnd);
    int at = skipSpaces(bytes, from, end);
    if (at == end) {
      return Kind.BLANK;
    }
    if (bytes[at] == '#') {
      return afterHash(bytes, at + 1, end);
    }
    checked = end - at > CHECK_BYTES && bytes[end - CHECK_BYTES] == '*';
    if (checked) {
      int body = end - CHECK_BYTES;
      if (xor(bytes, from, body) != hex(bytes[body + 1]) * 16 + hex(bytes[body + 2])) {
        return Kind.BAD_CHECK;
      }
      end = trimmedEnd(bytes, at, body);
    }
    return columns.isPresent() ? columns(bytes, at, end) : fields(bytes, at, end);
  }

  private Kind columns(byte[] bytes, int at, int end) {
    ColumnReader reader = columns.get();
    if (!reader.read(bytes, at, end, this)) {
      return Kind.MALFORMED;
    }
    micros = reader.micros();
    return reader.timed() ? Kind.TIMED_READING : Kind.READING;
  }

  private Kind fields(byte[] bytes, int at, int end) {
    if (!number(bytes, at, end)) {
      return Kind.MALFORMED;
    }
    int next = skipSpaces(bytes, cursor, end);
    if (next == end) {
      keep();
      return Kind.READING;
    }
    if (bytes[next] != ',' || signed || point) {
      return Kind.MALFORMED;
    }
    micros = whole;
    if (!number(bytes, skipSpaces(bytes, next + 1, end), end)
        || skipSpaces(bytes, cursor, end) != end) {
      return Kind.MALFORMED;
    }
    keep();
    return Kind.TIMED_READING;
  }

  /** Whether a whole number or decimal fills these bytes, with a point or a comma; it is kept. */
  boolean decimal(byte[] bytes, int from, int end) {
    boolean good = number(bytes, from, end) && cursor == end;
    keep();
    return good;
  }

  /** The last number without its sign and decimals. */
  long whole() {
    return whole;
  }

  /** Whether the last number has a minus sign. */
  boolean negative() {
    return negative;
  }

  /** Whether the last number has a point. */
  boolean hasPoint() {
    return point;
  }

  /** Its decimals in units of 10^−digits, cut off. */
  long decimals(int digits) {
    long units = fraction;
    for (int have = fractionDigits; have < digits; have++) {
      units *= 10;
    }
    for (int have = fractionDigits; have > digits; have--) {
      units /= 10;
    }
    return units;
  }

  private void keep() {
    reading.set(negative, whole, point, fraction, fractionDigits, moreFraction);
  }

  /** Sign, digits, point, digits; leaves the cursor behind them. */
  private boolean number(byte[] bytes, int from, int end) {
    int at = from;
    signed = at < end && (bytes[at] == '-' || bytes[at] == '+');
    negative = signed && bytes[at] == '-';
    if (signed) {
      at++;
    }
    int wholeFrom = at;
    long sum = 0;
    while (at < end && LineFields.isDigit(bytes[at])) {
      sum = sum * 10 + (bytes[at] - '0');
      at++;
    }
    whole = sum;
    int wholeDigits = at - wholeFrom;
    point = at < end && (bytes[at] == '.' || (bytes[at] == ',' && columns.isPresent()));
    fraction = 0;
    fractionDigits = 0;
    moreFraction = false;
    if (point) {
      at = fraction(bytes, at + 1, end);
    }
    cursor = at;
    return wholeDigits <= MAX_WHOLE_DIGITS && wholeDigits + fractionDigits > 0;
  }

  private int fraction(byte[] bytes, int from, int end) {
    int at = from;
    while (at < end && LineFields.isDigit(bytes[at])) {
      if (fractionDigits < KEPT_FRACTION_DIGITS) {
        fraction = fraction * 10 + (bytes[at] - '0');
        fractionDigits++;
      } else {
        moreFraction |= bytes[at] != '0';
      }
      at++;
    }
    return at;
  }

  private Kind afterHash(byte[] bytes, int from, int end) {
    int equals = from;
    while (equals < end && bytes[equals] != '=') {
      equals++;
    }
    int keyFrom = skipSpaces(bytes, from, equals);
    int keyEnd = trimmedEnd(bytes, keyFrom, equals);
    if (equals == end || !isKey(bytes, keyFrom, keyEnd)) {
      return Kind.COMMENT;
    }
    int valueFrom = skipSpaces(bytes, equals + 1, end);
    key = UntrustedText.of(bytes, keyFrom, keyEnd - keyFrom);
    value = UntrustedText.of(bytes, valueFrom, end - valueFrom);
    return Kind.ANNOUNCEMENT;
  }

  private static boolean isKey(byte[] bytes, int from, int end) {
    boolean good = end > from && end - from <= MAX_KEY_BYTES && isLetter(bytes[from]);
    for (int i = from; good && i < end; i++) {
      byte b = bytes[i];
      good = isLetter(b) || LineFields.isDigit(b) || b == '_' || b == '-' || b == '.';
    }
    return good;
  }

  /** Whether a line begins like a heading of columns: with a letter or a quotation mark. */
  static boolean looksLikeHeading(byte[] bytes, int from, int end) {
    int at = skipSpaces(bytes, from, end);
    return at < end && (isLetter(bytes[at]) || bytes[at] == '"');
  }

  /** Checksum of NMEA 0183: all bytes XORed. */
  public static int xor(byte[] bytes, int from, int end) {
    int xor = 0;
    for (int i = from; i < end; i++) {
      xor ^= bytes[i] & 0xFF;
    }
    return xor;
  }

  private static int hex(byte digit) {
    return Character.digit(digit, 16);
  }

  private static boolean isLetter(byte b) {
    return (b >= 'a' && b <= 'z') || (b >= 'A' && b <= 'Z');
  }

  private static int skipSpaces(byte[] bytes, int from, int end) {
    int at = from;
    while (at < end && LineFields.isSpace(bytes[at])) {
      at++;
    }
    return at;
  }

  private static int trimmedEnd(byte[] bytes, int from, int end) {
    int at = end;
    while (at > from && LineFields.isSpace(bytes[at - 1])) {
      at--;
    }
    return at;
  }
}
