package snick.cli.option;

import java.util.Arrays;
import java.util.Locale;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import snick.cli.terminal.Refusal;

/** What can be kept in the settings file, each with what it may be. */
public enum Setting {
  STORE("DIR", "Directory of the store.", text -> true),
  RIG("PORT", "The rig that is meant if no PORT is typed.", text -> true),
  MARGIN(
      "GF",
      "Largest difference in force that does not matter to you, of blades without one, gf.",
      text -> within(text, 0.01, 1000)),
  OPERATOR("ALIAS", "Who cuts, noted in new sessions: an alias.", text -> text.length() <= 120),
  LATITUDE("DEG", "Latitude, degrees, south negative.", text -> within(text, -90, 90)),
  HEIGHT("M", "Height above sea level, m.", text -> within(text, -500, 9000)),
  PAGE_PORT("PORT", "Port of the page.", text -> text.matches("\\d{1,5}")),
  PAGE_ADDRESS("ADDRESS", "Address of this machine that the page is served on.", text -> true),
  LICENCE("NAME", "Licence of packages that you export.", text -> true);

  private final String label;
  private final String what;
  private final Predicate<String> allowed;

  Setting(String label, String what, Predicate<String> allowed) {
    this.label = label;
    this.what = what;
    this.allowed = allowed;
  }

  /** As it stands in the file and is typed. */
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** What stands for its value. */
  String label() {
    return label;
  }

  /** What it is for. */
  String what() {
    return what;
  }

  /**
   * The value in {@code text}.
   *
   * @throws Refusal if it cannot be one
   */
  String checked(String text) {
    String value = text.strip();
    if (value.isEmpty() || value.length() > 400 || !allowed.test(value)) {
      throw Refusal.badInput(
          word() + " cannot be '" + text + "': " + label + ", " + what.toLowerCase(Locale.ROOT));
    }
    return value;
  }

  /**
   * The setting of a name.
   *
   * @throws Refusal if there is none
   */
  static Setting of(String word) {
    return Arrays.stream(values())
        .filter(setting -> setting.word().equals(word.strip()))
        .findFirst()
        .orElseThrow(
            () ->
                Refusal.badInput(
                    "no setting '"
                        + word.strip()
                        + "'; there are: "
                        + Arrays.stream(values())
                            .map(Setting::word)
                            .collect(Collectors.joining(", "))));
  }

  private static boolean within(String text, double low, double high) {
    try {
      double value = Double.parseDouble(text);
      return value >= low && value <= high;
    } catch (NumberFormatException e) {
      return false;
    }
  }
}
