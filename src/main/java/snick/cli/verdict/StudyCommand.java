package snick.cli.verdict;

import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** Studies of the rig. */
@Command(
    name = "study",
    mixinStandardHelpOptions = true,
    description = "Measure how much results vary with rig and operator.",
    subcommands = {StudyRepeatabilityCommand.class, StudyCrossedCommand.class},
    footerHeading = "%nExamples:%n",
    footer = {"  snick study repeatability monday tuesday --keep", "  snick study crossed --help"})
public final class StudyCommand implements Runnable {
  @Spec private CommandSpec spec;

  @Override
  public void run() {
    throw new ParameterException(spec.commandLine(), "Missing command: repeatability or crossed");
  }
}
