package snick.dist;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** What a unit of systemd says, line by line (systemd.syntax(7)). */
final class UnitFile {
  private final List<String> lines;

  UnitFile(String text) {
    this.lines = text.lines().map(String::strip).filter(line -> !line.startsWith("#")).toList();
  }

  /** The values of a name, in order. */
  List<String> all(String name) {
    return lines.stream()
        .filter(line -> line.startsWith(name + "="))
        .map(line -> line.substring(name.length() + 1))
        .toList();
  }

  /** The only value of a name. */
  String only(String name) {
    List<String> values = all(name);
    if (values.size() != 1) {
      throw new AssertionError(name + " is there " + values.size() + " times");
    }
    return values.get(0);
  }

  /** Its command with variables put in as systemd does for {@code $NAME}: split at blanks. */
  List<String> command(Map<String, String> variables) {
    List<String> words = new ArrayList<>();
    for (String word : only("ExecStart").split(" ", -1)) {
      if (word.startsWith("$")) {
        String value = variables.getOrDefault(word.substring(1), "");
        words.addAll(value.isBlank() ? List.of() : List.of(value.strip().split("\\s+")));
      } else {
        words.add(word);
      }
    }
    return words;
  }

  /** The variables of lines {@code NAME=value}, quotes taken off. */
  static Map<String, String> variables(String text) {
    Map<String, String> variables = new TreeMap<>();
    text.lines()
        .filter(line -> line.matches("[A-Z_]+=.*"))
        .forEach(
            line -> {
              int equals = line.indexOf('=');
              variables.put(
                  line.substring(0, equals), line.substring(equals + 1).replaceAll("^\"|\"$", ""));
            });
    return variables;
  }
}
