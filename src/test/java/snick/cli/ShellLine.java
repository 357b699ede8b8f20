package snick.cli;

import java.util.ArrayList;
import java.util.List;

/**
 * A command line as help texts and documents write it, split as a shell would: quotes group, {@code
 * |}, {@code >}, {@code &&}, {@code ;} and {@code #} end it, and so do three blanks in a row, after
 * which a remark follows.
 */
final class ShellLine {
  private static final String REMARK = "   ";

  private ShellLine() {}

  /** The words up to the end of the command. */
  static List<String> words(String line) {
    List<String> words = new ArrayList<>();
    StringBuilder word = new StringBuilder();
    boolean inWord = false;
    char quote = 0;
    for (int i = 0; i < line.length(); i++) {
      char c = line.charAt(i);
      if (quote != 0) {
        if (c == quote) {
          quote = 0;
        } else {
          word.append(c);
        }
      } else if (c == '\'' || c == '"') {
        quote = c;
        inWord = true;
      } else if (ends(line, i, inWord)) {
        break;
      } else if (c == ' ') {
        add(words, word, inWord);
        inWord = false;
      } else {
        word.append(c);
        inWord = true;
      }
    }
    add(words, word, inWord);
    return words;
  }

  private static boolean ends(String line, int at, boolean inWord) {
    char c = line.charAt(at);
    return "|>;".indexOf(c) >= 0
        || (c == '#' && !inWord)
        || line.startsWith("&&", at)
        || line.startsWith(REMARK, at);
  }

  private static void add(List<String> words, StringBuilder word, boolean inWord) {
    if (inWord) {
      words.add(word.toString());
      word.setLength(0);
    }
  }
}
