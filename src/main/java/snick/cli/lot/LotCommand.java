package snick.cli.lot;

import picocli.CommandLine.Command;
import snick.cli.terminal.CommandGroup;

/** Filament lots. */
@Command(
    name = "lot",
    description = "Keep the lots of test filament.",
    subcommands = {
      LotAddCommand.class,
      LotListCommand.class,
      LotCorrectCommand.class,
      LotCompareCommand.class
    },
    footer = {
      "  snick lot add spool-a --material 'nylon monofilament' --diameter 0.3",
      "  snick lot list"
    })
public final class LotCommand extends CommandGroup {}
