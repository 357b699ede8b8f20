package snick.cli.terminal;

import java.util.ArrayList;
import java.util.List;

/** Text broken into lines: between words, else after a slash, else where the line is full. */
final class BrokenText {
  /** How {@link PlainText} writes a control character, with four digits after it. */
  private static final String ESCAPE = "\\u";

  private static final int ESCAPE_LETTERS = 6;

  private BrokenText() {}

  /**
   * Lines of at most {@code letters}; one, as it is, where it fits.
   *
   * @param letters no fewer than an escape has
   */
  static List<String> lines(String text, int letters) {
    if (text.length() <= letters) {
      return List.of(text);
    }
    List<String> lines = new ArrayList<>();
    String rest = text.strip();
    while (rest.length() > letters) {
      int end = end(rest, letters);
      lines.add(rest.substring(0, end).stripTrailing());
      rest = rest.substring(end).stripLeading();
    }
    if (!rest.isEmpty() || lines.isEmpty()) {
      lines.add(rest);
    }
    return lines;
  }

  private static int end(String text, int letters) {
    int space = text.lastIndexOf(' ', letters);
    int slash = text.lastIndexOf('/', letters - 1);
    return space > 0 ? space : slash > 0 ? slash + 1 : within(text, letters);
  }

  /** At {@code letters}, or before the escape or the pair of surrogates that reaches beyond. */
  private static int within(String text, int letters) {
    int escape = text.lastIndexOf(ESCAPE, letters - 1);
    if (escape > 0 && escape + ESCAPE_LETTERS > letters) {
      return escape;
    }
    return Character.isHighSurrogate(text.charAt(letters - 1)) ? letters - 1 : letters;
  }
}
