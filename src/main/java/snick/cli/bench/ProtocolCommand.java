package snick.cli.bench;

import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** Whatever concerns the wire protocol. */
@Command(
    name = "protocol",
    mixinStandardHelpOptions = true,
    description = "Try firmware against the protocol.",
    subcommands = {ProtocolCheckCommand.class},
    footerHeading = "%nExamples:%n",
    footer = {"  snick protocol check /dev/ttyACM0"})
public final class ProtocolCommand implements Runnable {
  @Spec private CommandSpec spec;

  @Override
  public void run() {
    throw new ParameterException(spec.commandLine(), "Missing command");
  }
}
