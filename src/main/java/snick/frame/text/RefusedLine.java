package snick.frame.text;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * A text line that was refused for its form.
 *
 * @param text the line, inert, at most 512 characters
 * @param reason why, for people
 * @param options what may be meant, as {@code --columns} takes it; may be empty
 */
public record RefusedLine(String text, String reason, List<String> options) {
  static final String FORMS =
      "a line is 'counts', 'micros,counts', or columns with a reading among them";

  private static final int LONGEST_SHOWN = 60;
  private static final int MOST_OPTIONS = 4;

  public RefusedLine {
    options = List.copyOf(options);
  }

  /** One among lines that are read. */
  static RefusedLine among(String text, Optional<Columns> columns) {
    return new RefusedLine(
        text,
        columns.map(read -> "lines are read as " + read.words() + ", all alike").orElse(FORMS),
        List.of());
  }

  /** The line, cut short. */
  public String shown() {
    return text.length() <= LONGEST_SHOWN ? text : text.substring(0, LONGEST_SHOWN) + "…";
  }

  /** For people, with what would read it. */
  public String words() {
    String meant =
        options.isEmpty()
            ? "--columns names them, as in --columns time_ms,counts,-"
            : "say which is meant: "
                + options.stream()
                    .distinct()
                    .limit(MOST_OPTIONS)
                    .map(option -> "--columns " + option)
                    .collect(Collectors.joining(", "));
    return "line '" + shown() + "' is not understood: " + reason + "; " + meant;
  }
}
