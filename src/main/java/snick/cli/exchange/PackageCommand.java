package snick.cli.exchange;

import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** Packages. */
@Command(
    name = "package",
    mixinStandardHelpOptions = true,
    description = "Check packages, and list those that were taken in.",
    subcommands = {PackageCheckCommand.class, PackageListCommand.class},
    footerHeading = "%nExamples:%n",
    footer = {"  snick package check evening.zip", "  snick package list"})
public final class PackageCommand implements Runnable {
  @Spec private CommandSpec spec;

  @Override
  public void run() {
    throw new ParameterException(spec.commandLine(), "Missing command: check or list");
  }
}
