package snick.cli.calibration;

import picocli.CommandLine.Option;
import snick.cli.terminal.Refusal;
import snick.force.fit.DegreeRule;

/** Which degree the curve gets: {@code --degree}. */
final class DegreeChoice {
  @Option(
      names = "--degree",
      paramLabel = "N",
      defaultValue = "auto",
      description = "1, 2, 3, or auto: by lack of fit and F-test (default: ${DEFAULT-VALUE}).")
  private String word;

  /** As it was typed. */
  String word() {
    return word;
  }

  /**
   * The rule that was named.
   *
   * @throws Refusal if there is no such rule
   */
  DegreeRule rule() {
    return Refusal.ifNotAccepted(
        () -> DegreeRule.named(word), why -> Refusal.usage("--degree: " + why));
  }
}
