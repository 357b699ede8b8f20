package snick.cli.lot;

import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** Filament lots. */
@Command(
    name = "lot",
    mixinStandardHelpOptions = true,
    description = "Keep the lots of test filament.",
    subcommands = {
      LotAddCommand.class,
      LotListCommand.class,
      LotCorrectCommand.class,
      LotCompareCommand.class
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  snick lot add spool-a --material 'nylon monofilament' --diameter 0.3",
      "  snick lot list"
    })
public final class LotCommand implements Runnable {
  @Spec private CommandSpec spec;

  @Override
  public void run() {
    throw new ParameterException(
        spec.commandLine(), "Missing command: add, list, correct or compare");
  }
}
