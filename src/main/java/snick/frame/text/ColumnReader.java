package snick.frame.text;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;

/**
 * Reads text lines in columns. What separates them, and what stands around time and reading, is
 * learnt from the first line; a line that differs is refused, for it may say something else. After
 * four refused in a row it is learnt anew. Allocates when it learns only.
 */
final class ColumnReader {
  /** Choices of separators, in order. */
  static final byte[] SEPARATORS = {'\t', ';', '|', ',', LineFields.SPACES};

  private static final int REFUSED_TO_LEARN_ANEW = 4;
  private static final long HALF_OF_24_BITS = 1L << 23;
  private static final int DIGITS_OF_24_BITS = 6;
  private static final int DIGITS_OF_32_BITS = 8;

  /** Seconds that no clock of a device reaches: 30 000 years. */
  private static final long MOST_WHOLE = 1_000_000_000_000_000L;

  private final Columns columns;
  private final LineFields fields = new LineFields();
  private final TimeOfDay timeOfDay = new TimeOfDay();
  private final int readingAt;
  private final int timeAt;
  private boolean learnt;
  private byte separator;
  private byte[] around = {};
  private int refusedInARow;
  private long micros;

  ColumnReader(Columns columns) {
    this.columns = columns;
    this.readingAt = columns.readingAt();
    this.timeAt = columns.timeAt();
  }

  /** Expect lines like this one, cut at {@code separator}. */
  void learn(byte[] line, byte separator) {
    this.separator = separator;
    learnt = fields.cut(line, 0, line.length, separator);
    around = around(line);
  }

  boolean timed() {
    return columns.timed();
  }

  /** Time of the last line read, µs. */
  long micros() {
    return micros;
  }

  /** Read a line without spaces at its ends; its reading is left in {@code parser}. */
  boolean read(byte[] line, int from, int end, LineParser parser) {
    boolean read =
        learnt ? same(line, from, end) && take(line, parser) : first(line, from, end, parser);
    if (read) {
      refusedInARow = 0;
    } else if (++refusedInARow == REFUSED_TO_LEARN_ANEW) {
      learnt = false;
      refusedInARow = 0;
    }
    return read;
  }

  private boolean same(byte[] line, int from, int end) {
    return cut(line, from, end, separator) && sameAround(line);
  }

  private boolean cut(byte[] line, int from, int end, byte separator) {
    return fields.cut(line, from, end, separator) && fields.size() == columns.columns().size();
  }

  private boolean first(byte[] line, int from, int end, LineParser parser) {
    for (byte choice : SEPARATORS) {
      if (cut(line, from, end, choice) && take(line, parser)) {
        separator = choice;
        around = around(line);
        learnt = true;
        return true;
      }
    }
    return false;
  }

  /** What stands around time and reading, but spaces and digits of a hexadecimal number. */
  private byte[] around(byte[] line) {
    byte[] kept = new byte[line.length];
    int size = 0;
    for (int field = 0; field < fields.size(); field++) {
      if (field == timeAt || field == readingAt) {
        size = keep(line, fields.from(field), labelEnd(field), kept, size);
        size = keep(line, unitFrom(field), fields.end(field), kept, size);
      }
    }
    return Arrays.copyOf(kept, size);
  }

  private static int keep(byte[] line, int from, int end, byte[] kept, int size) {
    int next = size;
    for (int at = from; at < end; at++) {
      if (!LineFields.isSpace(line[at])) {
        kept[next++] = line[at];
      }
    }
    return next;
  }

  private boolean sameAround(byte[] line) {
    int at = 0;
    for (int field = 0; at >= 0 && field < fields.size(); field++) {
      if (field == timeAt || field == readingAt) {
        at = matched(line, fields.from(field), labelEnd(field), at);
        at = matched(line, unitFrom(field), fields.end(field), at);
      }
    }
    return at == around.length;
  }

  /** Place in {@code around} behind these bytes; −1 if they differ from it. */
  private int matched(byte[] line, int from, int end, int aroundFrom) {
    int next = aroundFrom;
    for (int at = from; next >= 0 && at < end; at++) {
      if (!LineFields.isSpace(line[at])) {
        next = next < around.length && around[next] == line[at] ? next + 1 : -1;
      }
    }
    return next;
  }

  private boolean isHex(int field) {
    return field == readingAt && columns.reading() == Column.HEX24;
  }

  private int labelEnd(int field) {
    return isHex(field) ? fields.from(field) : fields.valueFrom(field);
  }

  private int unitFrom(int field) {
    return isHex(field) ? fields.end(field) : fields.valueEnd(field);
  }

  private boolean take(byte[] line, LineParser parser) {
    return (timeAt == columns.columns().size() || takeTime(line, parser))
        && takeReading(line, parser);
  }

  private boolean takeTime(byte[] line, LineParser parser) {
    Column column = columns.columns().get(timeAt);
    int from = fields.valueFrom(timeAt);
    int end = fields.valueEnd(timeAt);
    if (column == Column.TIME) {
      boolean good = fields.kind(timeAt) == LineFields.Kind.TIME && timeOfDay.read(line, from, end);
      micros = timeOfDay.micros();
      return good;
    }
    if (!isNumber(timeAt)
        || !parser.decimal(line, from, end)
        || parser.negative()
        || parser.whole() > MOST_WHOLE / column.microsPerUnit()) {
      return false;
    }
    int digits = Long.toString(column.microsPerUnit()).length() - 1;
    micros = parser.whole() * column.microsPerUnit() + parser.decimals(digits);
    if (column != Column.TIME_US) {
      micros += TimeOfDay.BEYOND_A_COUNTER_OF_32_BITS;
    }
    return true;
  }

  private boolean isNumber(int field) {
    return fields.kind(field) == LineFields.Kind.NUMBER;
  }

  private boolean takeReading(byte[] line, LineParser parser) {
    if (columns.reading() == Column.HEX24) {
      return takeHex(line, parser);
    }
    if (!isNumber(readingAt)
        || !parser.decimal(line, fields.valueFrom(readingAt), fields.valueEnd(readingAt))) {
      return false;
    }
    return switch (columns.reading()) {
      case OFFSET24 -> whole24(parser, parser.whole() - HALF_OF_24_BITS);
      case UNSIGNED24 -> whole24(parser, signed24(parser.whole()));
      default -> true;
    };
  }

  private static boolean whole24(LineParser parser, long counts) {
    boolean good =
        !parser.hasPoint()
            && !parser.negative()
            && counts >= -HALF_OF_24_BITS
            && counts < HALF_OF_24_BITS;
    parser.reading().set(counts < 0, Math.abs(counts), false, 0, 0, false);
    return good;
  }

  private static long signed24(long code) {
    return code < HALF_OF_24_BITS ? code : code - 2 * HALF_OF_24_BITS;
  }

  /** Up to six digits are 24 bits, up to eight the same with its sign extended. */
  private boolean takeHex(byte[] line, LineParser parser) {
    int from = fields.from(readingAt);
    String word =
        new String(line, from, fields.end(readingAt) - from, StandardCharsets.US_ASCII).strip();
    String digits = word.startsWith("0x") || word.startsWith("0X") ? word.substring(2) : word;
    if (!digits.matches("[0-9A-Fa-f]{1," + DIGITS_OF_32_BITS + "}")) {
      return false;
    }
    long code = Long.parseLong(digits, 16);
    long counts = digits.length() <= DIGITS_OF_24_BITS ? signed24(code) : (int) code;
    parser.reading().set(counts < 0, Math.abs(counts), false, 0, 0, false);
    return counts >= -HALF_OF_24_BITS && counts < HALF_OF_24_BITS;
  }
}
