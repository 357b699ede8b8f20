package snick.cli;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** What a person typed, as the parser takes it. */
final class TypedLine {
  private TypedLine() {}

  /** {@code help COMMAND} as {@code COMMAND --help}; {@code --data} behind the command. */
  static String[] ordered(String... typed) {
    List<String> words = new ArrayList<>(Arrays.asList(typed));
    List<String> store = new ArrayList<>();
    int taken = words.isEmpty() ? 0 : data(words.get(0));
    if (words.size() > taken) {
      store.addAll(words.subList(0, taken));
      words.subList(0, taken).clear();
    }
    if (!words.isEmpty() && words.get(0).equals("help")) {
      words.remove(0);
      store.add("--help");
    }
    int end = words.indexOf("--");
    words.addAll(end < 0 ? words.size() : end, store);
    return words.toArray(String[]::new);
  }

  private static int data(String word) {
    if (word.startsWith("--data=")) {
      return 1;
    }
    return word.equals("--data") ? 2 : 0;
  }
}
