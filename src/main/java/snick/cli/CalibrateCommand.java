package snick.cli;

import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** Calibration against reference masses. */
@Command(
    name = "calibrate",
    mixinStandardHelpOptions = true,
    description = "Calibrate a rig against reference masses.",
    subcommands = {CalibrateFitCommand.class})
final class CalibrateCommand implements Runnable {
  @Spec private CommandSpec spec;

  @Override
  public void run() {
    throw new ParameterException(spec.commandLine(), "Missing command");
  }
}
