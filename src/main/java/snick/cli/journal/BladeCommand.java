package snick.cli.journal;

import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** Blades. */
@Command(
    name = "blade",
    mixinStandardHelpOptions = true,
    description = "Add, list, show and mend blades.",
    subcommands = {
      BladeAddCommand.class,
      BladeListCommand.class,
      BladeShowCommand.class,
      BladeCorrectCommand.class,
      BladeRenameCommand.class,
      BladeMergeCommand.class
    },
    footerHeading = "%nExamples:%n",
    footer = {"  snick blade add kitchen-1 --angle 30 --length 180", "  snick blade list"})
public final class BladeCommand implements Runnable {
  @Spec private CommandSpec spec;

  @Override
  public void run() {
    throw new ParameterException(
        spec.commandLine(), "Missing command: add, list, show, correct, rename or merge");
  }
}
