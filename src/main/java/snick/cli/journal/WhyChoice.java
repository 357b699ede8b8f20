package snick.cli.journal;

import picocli.CommandLine.Option;

/** Why something is mended. */
public final class WhyChoice {
  @Option(
      names = "--why",
      paramLabel = "TEXT",
      defaultValue = "no reason given",
      description = "Reason, kept with what was there before (default: ${DEFAULT-VALUE}).")
  private String why;

  /** The reason. */
  public String text() {
    return why;
  }
}
