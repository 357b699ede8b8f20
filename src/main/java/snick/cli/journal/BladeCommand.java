package snick.cli.journal;

import picocli.CommandLine.Command;
import snick.cli.terminal.CommandGroup;

/** Blades. */
@Command(
    name = "blade",
    description = "Add, list, show and mend blades.",
    subcommands = {
      BladeAddCommand.class,
      BladeListCommand.class,
      BladeShowCommand.class,
      BladeCorrectCommand.class,
      BladeRenameCommand.class,
      BladeMergeCommand.class
    },
    footer = {"  snick blade add kitchen-1 --angle 30 --length 180", "  snick blade list"})
public final class BladeCommand extends CommandGroup {}
