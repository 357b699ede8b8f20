package snick.frame.text;

import static java.nio.charset.StandardCharsets.US_ASCII;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import snick.frame.message.UntrustedText;

/**
 * The first lines of a text stream, held until it is told what their columns hold. What is told is
 * told from the last lines, all of one shape; those before may be a heading, or chatter.
 */
final class LineSamples {
  /** So many lines of one shape tell. */
  static final int ENOUGH = 8;

  /** So many single readings tell, too: there is less to tell. */
  static final int ENOUGH_SINGLE = 4;

  /** After so many lines none can be told. */
  static final int MOST = 48;

  private static final int MOST_WORDS_OF_A_NAME = 3;

  private final List<byte[]> lines = new ArrayList<>();
  private final LineFields fields = new LineFields();
  private Optional<byte[]> comment = Optional.empty();
  private int firstRow;

  /** A comment may be the heading. */
  void comment(byte[] bytes, int from, int end) {
    comment = Optional.of(Arrays.copyOfRange(bytes, from, end));
  }

  /** Hold a line; the bytes are copied. */
  void hold(byte[] bytes, int from, int end) {
    lines.add(Arrays.copyOfRange(bytes, from, end));
  }

  List<byte[]> lines() {
    return lines;
  }

  /** Those before the rows that told. */
  List<byte[]> preamble() {
    return lines.subList(0, firstRow);
  }

  List<byte[]> rows() {
    return lines.subList(firstRow, lines.size());
  }

  byte[] last() {
    return lines.get(lines.size() - 1);
  }

  /** A line to show where none is understood: the first that holds a digit, else the first. */
  byte[] typical() {
    return lines.stream()
        .filter(line -> indexOfDigit(line) < line.length)
        .findFirst()
        .orElseGet(() -> lines.get(0));
  }

  private static int indexOfDigit(byte[] line) {
    int at = 0;
    while (at < line.length && !LineFields.isDigit(line[at])) {
      at++;
    }
    return at;
  }

  /** Said when many lines came and no eight of one shape. */
  ColumnsTold untold() {
    return ColumnsTold.unknown(RefusedLine.FORMS, hexadecimal() ? List.of("hex24") : List.of());
  }

  /** Whether the last lines are hexadecimal numbers. */
  private boolean hexadecimal() {
    return lines.stream()
        .skip(Math.max(0, lines.size() - ENOUGH))
        .allMatch(line -> new String(line, US_ASCII).strip().matches("(0[xX])?[0-9A-Fa-f]{1,8}"));
  }

  /**
   * What the lines are taken for at the end of a stream that has no more.
   *
   * @param few whether they are all there were
   */
  ColumnsTold atLast(boolean few) {
    return told().orElseGet(() -> few && lines.size() < ENOUGH ? ColumnsTold.PROTOCOL : untold());
  }

  boolean full() {
    return lines.size() >= MOST;
  }

  /** What the lines hold, if that can be told by now. */
  Optional<ColumnsTold> told() {
    for (byte separator : ColumnReader.SEPARATORS) {
      Optional<ColumnsTold> told = told(separator);
      if (told.isPresent()) {
        return told;
      }
    }
    return Optional.empty();
  }

  private Optional<ColumnsTold> told(byte separator) {
    List<List<SampleField>> rows = new ArrayList<>();
    int at = lines.size() - 1;
    while (at >= 0 && rows.size() < ENOUGH && sameShape(rows, row(at, separator))) {
      rows.add(0, row(at--, separator));
    }
    boolean single = !rows.isEmpty() && rows.get(0).size() == 1;
    if (rows.size() < (single ? ENOUGH_SINGLE : ENOUGH) || !possible(rows, separator)) {
      return Optional.empty();
    }
    firstRow = at + 1;
    return Optional.of(
        new RowReading(rows, heading(at, separator, rows.get(0).size()), separator).told());
  }

  /** The fields of a line; none if it cannot be cut. */
  private List<SampleField> row(int at, byte separator) {
    byte[] line = lines.get(at);
    List<SampleField> row = new ArrayList<>();
    if (fields.cut(line, 0, line.length, separator)) {
      for (int field = 0; field < fields.size(); field++) {
        row.add(SampleField.of(line, fields, field));
      }
    }
    return row;
  }

  private static boolean sameShape(List<List<SampleField>> rows, List<SampleField> row) {
    return !row.isEmpty()
        && row.stream().anyMatch(SampleField::isNumber)
        && (rows.isEmpty() || SampleField.sameShape(rows.get(0), row));
  }

  /** Whether this separator is one: a comma may be a decimal comma, a space stand in a label. */
  private boolean possible(List<List<SampleField>> rows, byte separator) {
    boolean clean = rows.stream().flatMap(List::stream).noneMatch(SampleField::isMuddled);
    if (separator == LineFields.SPACES) {
      return clean && !commaSeparates();
    }
    int columns = rows.get(0).size();
    return clean && columns > 1 && !(separator == ',' && columns == 2 && oneNumber(rows.get(0)));
  }

  /** Whether the last line may have commas between its columns. */
  private boolean commaSeparates() {
    List<SampleField> row = row(lines.size() - 1, (byte) ',');
    return row.size() > 1
        && row.stream().noneMatch(SampleField::isMuddled)
        && !(row.size() == 2 && oneNumber(row));
  }

  /**
   * {@code Reading: 123} and {@code 4 g}: a label before and no unit, a unit behind and no label.
   */
  private static boolean oneNumber(List<SampleField> row) {
    SampleField left = row.get(0);
    SampleField right = row.get(1);
    boolean alone = left.unit().isEmpty() && right.label().isEmpty() && !right.spaced();
    return alone && right.digitsOnly() && (!left.label().isEmpty() || !right.unit().isEmpty());
  }

  /** Names of the columns from the line before the first row; none if it has not as many. */
  private List<String> heading(int at, byte separator, int columns) {
    Optional<byte[]> before = at < 0 ? comment : Optional.of(lines.get(at));
    if (before.isEmpty()) {
      return List.of();
    }
    String line =
        UntrustedText.of(before.get(), 0, before.get().length).replaceFirst("^[#\\s\uFFFD]+", "");
    if (columns == 1) {
      boolean name = line.split("\\s+").length <= MOST_WORDS_OF_A_NAME;
      return name && line.chars().noneMatch(Character::isDigit) ? List.of(line) : List.of();
    }
    String between = separator == LineFields.SPACES ? "\\s+" : "\\Q" + (char) separator + "\\E";
    List<String> names = List.of(line.split(between, -1));
    boolean words = line.chars().anyMatch(Character::isLetter);
    return words && names.size() == columns ? names : List.of();
  }
}
