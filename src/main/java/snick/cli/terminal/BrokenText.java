package snick.cli.terminal;

import java.util.ArrayList;
import java.util.List;

/** Text broken into lines: between words, else after a slash, else where the line is full. */
final class BrokenText {
  private BrokenText() {}

  /** Lines of at most {@code letters}; one, as it is, where it fits. */
  static List<String> lines(String text, int letters) {
    List<String> lines = new ArrayList<>();
    String rest = text;
    while (rest.length() > letters) {
      int end = end(rest, letters);
      lines.add(rest.substring(0, end).stripTrailing());
      rest = rest.substring(end).stripLeading();
    }
    lines.add(rest);
    return lines;
  }

  private static int end(String text, int letters) {
    int space = text.lastIndexOf(' ', letters);
    int slash = text.lastIndexOf('/', letters - 1);
    return space > 0 ? space : slash > 0 ? slash + 1 : letters;
  }
}
