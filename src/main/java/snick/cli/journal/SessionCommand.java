package snick.cli.journal;

import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** Sessions. */
@Command(
    name = "session",
    mixinStandardHelpOptions = true,
    description = "Open, end, look at and mend sessions.",
    subcommands = {
      SessionStartCommand.class,
      SessionStopCommand.class,
      SessionListCommand.class,
      SessionShowCommand.class,
      SessionCorrectCommand.class,
      SessionRenameCommand.class,
      SessionReopenCommand.class
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  snick session start evening --blade kitchen-1",
      "  snick session show",
      "  snick session stop"
    })
public final class SessionCommand implements Runnable {
  @Spec private CommandSpec spec;

  @Override
  public void run() {
    throw new ParameterException(
        spec.commandLine(), "Missing command: start, stop, list, show, correct, rename or reopen");
  }
}
