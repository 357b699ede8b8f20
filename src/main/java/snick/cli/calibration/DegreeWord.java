package snick.cli.calibration;

import snick.cli.terminal.Refusal;
import snick.force.DegreeRule;

/** The option {@code --degree}. */
final class DegreeWord {
  private DegreeWord() {}

  /**
   * The rule that {@code text} names.
   *
   * @throws Refusal if it names none
   */
  static DegreeRule rule(String text) {
    try {
      return DegreeRule.named(text);
    } catch (IllegalArgumentException e) {
      throw Refusal.usage("--degree: " + e.getMessage());
    }
  }
}
