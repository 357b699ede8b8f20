package snick.cli.calibration;

import java.time.Duration;
import java.util.Optional;
import picocli.CommandLine.Option;
import snick.cli.terminal.Refusal;
import snick.force.budget.Conditions;

/** What the person knows of temperature and drift. The defaults are common practice, no source. */
final class StabilityChoice {
  private static final int LONGEST_DAYS = 3650;

  @Option(
      names = "--per-kelvin",
      paramLabel = "X",
      defaultValue = "0.0001",
      description = "Relative change of sensitivity for each kelvin (default: ${DEFAULT-VALUE}).")
  private double relativePerKelvin;

  @Option(
      names = "--kelvin",
      paramLabel = "K",
      defaultValue = "3",
      description =
          "How far the temperature in use may lie from that at calibration (default:"
              + " ${DEFAULT-VALUE}).")
  private double halfWidthKelvin;

  @Option(
      names = "--per-year",
      paramLabel = "X",
      defaultValue = "0.001",
      description = "Relative drift of sensitivity in a year (default: ${DEFAULT-VALUE}).")
  private double relativePerYear;

  @Option(
      names = "--valid-days",
      paramLabel = "N",
      defaultValue = "180",
      description = "Period of validity, days (default: ${DEFAULT-VALUE}).")
  private int validDays;

  /** As stated. */
  Conditions.Stability stability() {
    return Refusal.ifNotAccepted(
        () ->
            new Conditions.Stability(
                relativePerKelvin, halfWidthKelvin, relativePerYear, Optional.of(validity())),
        why -> Refusal.badInput(why + "; see --per-kelvin, --kelvin and --per-year in the help"));
  }

  /** Period of validity. */
  Duration validity() {
    if (validDays < 1 || validDays > LONGEST_DAYS) {
      throw Refusal.usage("--valid-days " + validDays + " is outside 1 to " + LONGEST_DAYS);
    }
    return Duration.ofDays(validDays);
  }
}
