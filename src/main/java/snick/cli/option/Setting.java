package snick.cli.option;

import java.util.Arrays;
import java.util.stream.Collectors;
import snick.cli.terminal.Refusal;
import snick.quantity.Worded;

/** What can be kept in the settings file, each with what it may be. */
public enum Setting implements Worded {
  STORE("DIR", "Directory of the store."),
  RIG("PORT", "The rig that is meant if no PORT is typed."),
  MARGIN(
      "GF, 0.01 to 1000",
      "Largest difference in force that does not matter to you, for blades without their own, gf."),
  OPERATOR("ALIAS", "Who cuts, noted in new sessions: an alias."),
  LATITUDE("DEG, -90 to 90", "Latitude, degrees, south negative."),
  HEIGHT("M, -500 to 9000", "Height above sea level, m."),
  PAGE_PORT("PORT, 0 to 65535", "Port of the page."),
  PAGE_ADDRESS("ADDRESS", "Address of this machine that the page is served on."),
  LICENCE("NAME", "Licence of packages that you export.");

  private static final int LONGEST = 400;

  private final String label;
  private final String what;

  Setting(String label, String what) {
    this.label = label;
    this.what = what;
  }

  /** As it stands in the file and is typed. */
  @Override
  public String word() {
    return Worded.super.word().replace('_', '-');
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
    if (value.isEmpty() || value.length() > LONGEST || !isAllowed(value)) {
      throw Refusal.badInput(word() + " cannot be '" + value + "'; it takes " + label);
    }
    return value;
  }

  private boolean isAllowed(String value) {
    return switch (this) {
      case MARGIN -> within(value, 0.01, 1000);
      case LATITUDE -> within(value, -90, 90);
      case HEIGHT -> within(value, -500, 9000);
      case PAGE_PORT -> within(value, 0, 65_535) && value.matches("\\d+");
      default -> true;
    };
  }

  /**
   * The setting of a name.
   *
   * @throws Refusal if there is none
   */
  static Setting of(String word) {
    return Worded.named(Setting.class, word.strip())
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
