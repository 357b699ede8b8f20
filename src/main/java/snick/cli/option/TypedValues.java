package snick.cli.option;

import java.util.Arrays;
import java.util.List;
import java.util.regex.Pattern;
import snick.cli.terminal.Refusal;
import snick.verdict.statistic.Readings;

/** Forces typed in one word: {@code 212,198,205}, in gf. */
public final class TypedValues {
  private static final Pattern NUMBER =
      Pattern.compile("[+-]?(\\d+\\.?\\d*|\\.\\d+)([eE][+-]?\\d{1,3})?|NaN|[+-]?Infinity");
  private static final int LONGEST_SHOWN = 40;

  private TypedValues() {}

  /**
   * The readings in {@code text}.
   *
   * @param group name for complaints and figures
   */
  public static Readings parse(String group, String text) {
    String trimmed = text.strip();
    List<String> words =
        trimmed.isEmpty() ? List.of() : Arrays.asList(trimmed.split("\\s*[,;]\\s*|\\s+", -1));
    double[] gramForce = new double[words.size()];
    for (int i = 0; i < gramForce.length; i++) {
      gramForce[i] = number(group, i + 1, words.get(i));
    }
    return Readings.ofGramForce(group, gramForce);
  }

  private static double number(String group, int place, String word) {
    if (!NUMBER.matcher(word).matches()) {
      String shown = word.length() <= LONGEST_SHOWN ? word : word.substring(0, LONGEST_SHOWN) + "…";
      throw Refusal.badInput(
          "%s: value %s%s; write forces in gf like 212,198.5,205",
          group, place, word.isEmpty() ? " is empty" : " is '" + shown + "', not a number");
    }
    return Double.parseDouble(word);
  }
}
