package snick.frame.text;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * What the columns of text lines hold, from left to right: one reading, at most one time.
 * Immutable.
 *
 * @param columns 1 to 32
 */
public record Columns(List<Column> columns) {
  /** Most columns of a line. */
  public static final int MOST = 32;

  private static final String FORCES = " in ";
  private static final int LONGEST_NAME = 160;
  private static final int KEPT_OF_LONG = 120;
  private static final Pattern NO_TEXT = Pattern.compile("[\\p{Cc}\\p{Cs}]");

  /** What firmware-protocol.md asks for: {@code micros,counts}. */
  static final Columns MICROS_COUNTS = new Columns(List.of(Column.TIME_US, Column.COUNTS));

  /** A reading alone. */
  static final Columns COUNTS = new Columns(List.of(Column.COUNTS));

  public Columns {
    columns = List.copyOf(columns);
    if (columns.size() > MOST) {
      throw new IllegalArgumentException(columns.size() + " columns, at most " + MOST + " allowed");
    }
    long readings = columns.stream().filter(Column::isReading).count();
    if (readings != 1 || columns.stream().filter(Column::isTime).count() > 1) {
      throw new IllegalArgumentException(
          "one column is the reading and at most one the time, the others are '-': for example"
              + " time_ms,counts,-");
    }
  }

  /**
   * Columns from their words with commas between, such as {@code time_ms,counts,-}.
   *
   * @throws IllegalArgumentException naming the word that is none
   */
  public static Columns parse(String words) {
    return new Columns(
        Arrays.stream(words.split(",", -1)).map(word -> column(word.strip())).toList());
  }

  private static Column column(String word) {
    return Column.ofWord(word)
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "'" + word + "' is no column; there are " + Column.words()));
  }

  /** The words that {@link #parse} takes. */
  public String words() {
    return columns.stream().map(Column::word).collect(Collectors.joining(","));
  }

  /** The reading's column. */
  public Column reading() {
    return columns.get(readingAt());
  }

  /** Whether there is a time. */
  public boolean timed() {
    return timeAt() < columns.size();
  }

  /**
   * The name of a rig whose lines are read so: one that sends forces is another than one that sends
   * counts, for a calibration of one is none of the other. Where the name is the path of a file, it
   * may be any: characters that are no text become question marks, and of a long one the end is
   * kept behind a digest of all.
   */
  public static String rigName(String name, Optional<Columns> columns) {
    return columns
        .map(Columns::reading)
        .filter(reading -> reading.gramForcePerUnit().isPresent())
        .map(reading -> plain(name) + FORCES + reading.word())
        .orElse(plain(name));
  }

  private static String plain(String name) {
    String kept =
        name.length() <= LONGEST_NAME
            ? name
            : String.format(
                Locale.ROOT,
                "text:%08x…%s",
                name.hashCode(),
                name.substring(name.length() - KEPT_OF_LONG));
    return NO_TEXT.matcher(kept).replaceAll("?");
  }

  /** The force that a rig of this name sends; empty if it sends counts. */
  public static Optional<Column> forceOf(String rigName) {
    int at = rigName.lastIndexOf(FORCES);
    return at < 0
        ? Optional.empty()
        : Column.ofWord(rigName.substring(at + FORCES.length()))
            .filter(reading -> reading.gramForcePerUnit().isPresent());
  }

  int readingAt() {
    return first(Column::isReading);
  }

  /** Place of the time; the number of columns if there is none. */
  int timeAt() {
    return first(Column::isTime);
  }

  private int first(Predicate<Column> wanted) {
    int at = 0;
    while (at < columns.size() && !wanted.test(columns.get(at))) {
      at++;
    }
    return at;
  }
}
