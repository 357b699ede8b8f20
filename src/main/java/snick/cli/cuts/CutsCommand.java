package snick.cli.cuts;

import picocli.CommandLine.Command;
import snick.cli.terminal.CommandGroup;

/** Stored cuts. */
@Command(
    name = "cuts",
    description = "Look at stored cuts, set one aside, move it, or enter forces read elsewhere.",
    subcommands = {
      CutsListCommand.class,
      CutsShowCommand.class,
      CutsSetAsideCommand.class,
      CutsMoveCommand.class,
      CutsEnterCommand.class
    },
    footer = {"  snick cuts list --limit 20", "  snick cuts show 12"})
public final class CutsCommand extends CommandGroup {}
