package snick.cli.journal;

import picocli.CommandLine.Command;
import snick.cli.terminal.CommandGroup;

/** Sessions. */
@Command(
    name = "session",
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
    footer = {
      "  snick session start evening --blade kitchen-1",
      "  snick session show",
      "  snick session stop"
    })
public final class SessionCommand extends CommandGroup {}
