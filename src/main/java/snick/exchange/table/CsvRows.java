package snick.exchange.table;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.Iterator;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import snick.exchange.json.RefusedPackage;
import snick.json.Times;
import snick.quantity.Attribute;
import snick.quantity.Values;

/**
 * Rows of a table being read, one at a time, each cell checked against its column. Numbers are read
 * once, from the characters as they lie in the reader's buffer.
 */
public final class CsvRows implements Values {
  private static final int LONGEST_CELL = 1 << 12;
  private static final char[] INFINITE = {'I', 'N', 'F'};

  private final PackageTable<?> table;
  private final Attribute<?>[] columns;
  private final CheckedInput input;
  private final Iterator<Cells> rows;
  private final long[] wholes;
  private final double[] reals;
  private Cells current;
  private long row = 1;

  /** The rows after the header, which must be the table's. */
  public CsvRows(PackageTable<?> table, InputStream in, FileFacts stated) {
    this.table = table;
    this.columns = table.columns().toArray(Attribute<?>[]::new);
    this.wholes = new long[columns.length];
    this.reals = new double[columns.length];
    this.input = new CheckedInput(in, table.file(), stated);
    this.rows =
        CsvReader.builder()
            .maxBufferSize(1 << 16)
            .skipEmptyLines(false)
            .build(new Cells(columns.length), input, StandardCharsets.UTF_8)
            .iterator();
    current = fetch();
    if (!isHeader()) {
      throw refused("its header is not " + String.join(",", table.header()));
    }
    advance();
  }

  private boolean isHeader() {
    if (current == null || current.count() != columns.length) {
      return false;
    }
    for (int i = 0; i < columns.length; i++) {
      if (!current.word(i).equals(columns[i].name())) {
        return false;
      }
    }
    return true;
  }

  private Cells fetch() {
    try {
      return rows.hasNext() ? rows.next() : null;
    } catch (CsvParseException e) {
      throw new RefusedPackage(
          table.file() + ", after row " + row + ": no CSV of RFC 4180: " + reason(e), e);
    }
  }

  private static String reason(CsvParseException e) {
    Throwable cause = e.getCause() == null ? e : e.getCause();
    return RefusedPackage.shown(String.valueOf(cause.getMessage()));
  }

  public RefusedPackage refused(String why) {
    return new RefusedPackage(table.file() + ", row " + row + ": " + why + "; ask the sender");
  }

  /** Whether there is a current row. */
  public boolean present() {
    return current != null;
  }

  /** Bytes of the file read so far. */
  public long bytesRead() {
    return input.bytesRead();
  }

  /** Goes to the next row. */
  public void advance() {
    row++;
    current = fetch();
    if (current == null) {
      return;
    }
    if (current.count() != columns.length) {
      throw refused(current.count() + " cells, not " + columns.length);
    }
    for (int i = 0; i < columns.length; i++) {
      read(i, columns[i]);
    }
  }

  private void read(int i, Attribute<?> column) {
    if (empty(i)) {
      if (column.required()) {
        throw refused(column.name() + " is empty");
      }
      return;
    }
    if (current.length(i) > LONGEST_CELL || !good(i, column)) {
      throw refused(column.name() + " is '" + shown(i) + "', no " + CellType.of(column).word());
    }
  }

  private boolean good(int i, Attribute<?> column) {
    return switch (CellType.of(column)) {
      case INTEGER -> readWhole(i);
      case NUMBER -> column.type() == Attribute.Type.SECONDS ? readSeconds(i) : readReal(i);
      case BOOLEAN -> text(i).equals("true") || text(i).equals("false");
      case DATETIME -> current.length(i) <= 40;
      case STRING -> column.words().isEmpty() ? isWords(text(i)) : column.words().contains(text(i));
    };
  }

  private boolean readWhole(int i) {
    OptionalLong whole = Decimals.whole(current.text(), current.start(i), current.end(i));
    wholes[i] = whole.orElse(0);
    return whole.isPresent();
  }

  private boolean readSeconds(int i) {
    OptionalLong nanos = Decimals.nanos(current.text(), current.start(i), current.end(i));
    if (nanos.isEmpty()) {
      throw refused(
          columns[i].name()
              + " is '"
              + shown(i)
              + "', no time of at most 9 digits before and 9 after the point");
    }
    wholes[i] = nanos.getAsLong();
    return true;
  }

  private boolean readReal(int i) {
    if (isInfinite(i)) {
      reals[i] = Double.POSITIVE_INFINITY;
      return true;
    }
    OptionalDouble real = Decimals.real(current.text(), current.start(i), current.end(i));
    reals[i] = real.orElse(Double.NaN);
    return real.isPresent();
  }

  private boolean isInfinite(int i) {
    return java.util.Arrays.equals(
        current.text(), current.start(i), current.end(i), INFINITE, 0, INFINITE.length);
  }

  /** Words and ids: a response is called {@code response-} and eight hexadecimal digits. */
  private static boolean isWords(String cell) {
    return cell.chars().allMatch(CsvRows::isOfWord);
  }

  private static boolean isOfWord(int c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_' || c == '-' || c == ' ';
  }

  private String shown(int i) {
    return RefusedPackage.shown(current.word(i));
  }

  private String text(int column) {
    return current.word(column);
  }

  @Override
  public String text(String column) {
    return text(table.index(column));
  }

  @Override
  public boolean truth(String column) {
    return text(column).equals("true");
  }

  @Override
  public int integer(String column) {
    return integer(table.index(column));
  }

  @Override
  public OptionalDouble optionalReal(String column) {
    return real(table.index(column));
  }

  @Override
  public OptionalLong optionalNanos(String column) {
    int place = table.index(column);
    return empty(place) ? OptionalLong.empty() : OptionalLong.of(wholes[place]);
  }

  private boolean empty(int column) {
    return current.length(column) == 0;
  }

  public long whole(int column) {
    return wholes[column];
  }

  public int integer(int column) {
    long value = wholes[column];
    if (value < Integer.MIN_VALUE || value > Integer.MAX_VALUE) {
      throw refused(columns[column].name() + " is " + value + ", over 32 bits");
    }
    return (int) value;
  }

  public OptionalDouble real(int column) {
    return empty(column) ? OptionalDouble.empty() : OptionalDouble.of(reals[column]);
  }

  /** Nanoseconds of a column in s. */
  public long nanos(int column) {
    return wholes[column];
  }

  public Instant instant(String column) {
    return Times.parse(text(column))
        .orElseThrow(
            () ->
                refused(
                    column
                        + " is '"
                        + shown(table.index(column))
                        + "', no UTC time from 1700 to 2250"));
  }

  /** Compares the file with what was stated; all rows must have been read. */
  public void requireEnd() throws IOException {
    if (present()) {
      throw refused("it belongs to no cut of cuts.csv, or not to this place");
    }
    input.requireAsStated();
  }
}
