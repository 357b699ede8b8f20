package snick.exchange;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.StringArrayHandler;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.Arrays;
import java.util.Iterator;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalLong;

/** Rows of a table being read, one at a time, each cell checked against its column. */
final class CsvRows {
  private static final int LONGEST_CELL = 1 << 12;
  private static final int MOST_DIGITS = 18;

  private final Table table;
  private final CheckedInput input;
  private final Iterator<String[]> rows;
  private String[] current;
  private long row = 1;

  /** The rows after the header, which must be the table's. */
  CsvRows(Table table, InputStream in, FileFacts stated) {
    this.table = table;
    this.input = new CheckedInput(in, table.file(), stated);
    this.rows =
        CsvReader.builder()
            .maxBufferSize(1 << 16)
            .skipEmptyLines(false)
            .build(
                StringArrayHandler.builder().maxFields(64).maxFieldSize(LONGEST_CELL).build(),
                input,
                StandardCharsets.UTF_8)
            .iterator();
    String[] header = fetch();
    if (header == null || !Arrays.equals(header, table.header())) {
      throw refused("its header is not " + String.join(",", table.header()));
    }
    advance();
  }

  private String[] fetch() {
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

  RefusedPackage refused(String why) {
    return new RefusedPackage(table.file() + ", row " + row + ": " + why + "; ask the sender");
  }

  /** Whether there is a current row. */
  boolean present() {
    return current != null;
  }

  /** Goes to the next row. */
  void advance() {
    row++;
    current = fetch();
    if (current == null) {
      return;
    }
    List<Column> columns = table.columns();
    if (current.length != columns.size()) {
      throw refused(current.length + " cells, not " + columns.size());
    }
    for (int i = 0; i < current.length; i++) {
      check(columns.get(i), current[i]);
    }
  }

  private void check(Column column, String cell) {
    if (cell.isEmpty()) {
      if (column.required()) {
        throw refused(column.name() + " is empty");
      }
      return;
    }
    boolean good =
        switch (column.type()) {
          case INTEGER -> isWhole(cell);
          case NUMBER -> Decimals.isReal(cell) || cell.equals("INF");
          case BOOLEAN -> cell.equals("true") || cell.equals("false");
          case DATETIME -> cell.length() <= 40;
          case STRING -> column.words().isEmpty() ? isWords(cell) : column.words().contains(cell);
        };
    if (!good) {
      throw refused(
          column.name() + " is '" + RefusedPackage.shown(cell) + "', no " + column.type().word());
    }
  }

  private static boolean isWhole(String cell) {
    int from = cell.startsWith("-") ? 1 : 0;
    if (cell.length() == from || cell.length() - from > MOST_DIGITS) {
      return false;
    }
    for (int i = from; i < cell.length(); i++) {
      if (cell.charAt(i) < '0' || cell.charAt(i) > '9') {
        return false;
      }
    }
    return true;
  }

  private static boolean isWords(String cell) {
    return cell.chars().allMatch(c -> (c >= 'a' && c <= 'z') || c == '_' || c == ' ');
  }

  String text(int column) {
    return current[column];
  }

  boolean empty(int column) {
    return current[column].isEmpty();
  }

  long whole(int column) {
    return Long.parseLong(current[column]);
  }

  int integer(int column) {
    long value = whole(column);
    if (value < Integer.MIN_VALUE || value > Integer.MAX_VALUE) {
      throw refused(name(column) + " is " + value + ", over 32 bits");
    }
    return (int) value;
  }

  OptionalDouble real(int column) {
    String cell = current[column];
    if (cell.isEmpty()) {
      return OptionalDouble.empty();
    }
    return OptionalDouble.of(
        cell.equals("INF") ? Double.POSITIVE_INFINITY : Double.parseDouble(cell));
  }

  /** Nanoseconds of a column in s. */
  long nanos(int column) {
    OptionalLong nanos = Decimals.nanos(current[column]);
    if (nanos.isEmpty()) {
      throw refused(
          name(column)
              + " is '"
              + RefusedPackage.shown(current[column])
              + "', no time of at most 9 digits before and 9 after the point");
    }
    return nanos.getAsLong();
  }

  Instant instant(int column) {
    return Times.parse(current[column])
        .orElseThrow(
            () ->
                refused(
                    name(column)
                        + " is '"
                        + RefusedPackage.shown(current[column])
                        + "', no UTC time from 1700 to 2250"));
  }

  private String name(int column) {
    return table.columns().get(column).name();
  }

  /** Compares the file with what was stated; all rows must have been read. */
  void requireEnd() throws IOException {
    if (present()) {
      throw refused("it belongs to no cut of cuts.csv, or not to this place");
    }
    input.requireAsStated();
  }
}
