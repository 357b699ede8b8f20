package snick.cli.cuts;

import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** Stored cuts. */
@Command(
    name = "cuts",
    mixinStandardHelpOptions = true,
    description = "Look at stored cuts, set one aside, move it, or enter forces read elsewhere.",
    subcommands = {
      CutsListCommand.class,
      CutsShowCommand.class,
      CutsSetAsideCommand.class,
      CutsMoveCommand.class,
      CutsEnterCommand.class
    },
    footerHeading = "%nExamples:%n",
    footer = {"  snick cuts list --limit 20", "  snick cuts show 12"})
public final class CutsCommand implements Runnable {
  @Spec private CommandSpec spec;

  @Override
  public void run() {
    throw new ParameterException(
        spec.commandLine(), "Missing command: list, show, set-aside, move or enter");
  }
}
