package snick.frame.text;

import java.util.List;
import java.util.Optional;

/**
 * What the columns of a text are taken for, or why that cannot be told.
 *
 * @param columns what they hold; empty if it cannot be told
 * @param separator the byte between them
 * @param bare whether nothing but numbers and separators stands in the lines
 * @param sure whether names and units say so, or the lines only look like it
 * @param reason how it is known, or why not, for people
 * @param options what may be meant, as {@code --columns} takes it
 */
record ColumnsTold(
    Optional<Columns> columns,
    byte separator,
    boolean bare,
    boolean sure,
    String reason,
    List<String> options) {
  /** Lines are what the protocol asks for, or nothing. */
  static final ColumnsTold PROTOCOL =
      new ColumnsTold(Optional.of(Columns.COUNTS), (byte) 0, true, true, "", List.of());

  static ColumnsTold unknown(String reason, List<String> options) {
    return new ColumnsTold(Optional.empty(), (byte) 0, false, false, reason, List.copyOf(options));
  }

  /** Whether it is what firmware-protocol.md asks for. */
  boolean isProtocol() {
    boolean pair = separator == ',' && columns.equals(Optional.of(Columns.MICROS_COUNTS));
    return bare && (pair || columns.equals(Optional.of(Columns.COUNTS)));
  }

  /** One line for people. */
  String words() {
    return "text is read as %s, %s (%s)"
        .formatted(columns.orElseThrow().words(), sure ? "surely" : "probably", reason);
  }
}
