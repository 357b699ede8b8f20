package snick.cli.lot;

import java.io.PrintWriter;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import snick.cli.journal.NoteJson;
import snick.cli.option.DataDirectory;
import snick.cli.option.OpenedStore;
import snick.cli.terminal.ExitCode;
import snick.cli.terminal.JsonLine;
import snick.cli.terminal.Said;
import snick.cli.terminal.Table;
import snick.journal.FilamentLot;
import snick.store.StoreReader;

/** Lists filament lots. */
@Command(
    name = "list",
    mixinStandardHelpOptions = true,
    description = "List filament lots as they stand.",
    footerHeading = "%nExamples:%n",
    footer = {"  snick lot list", "  snick lot list --json"})
final class LotListCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private DataDirectory data;

  @Option(names = "--json", description = "One JSON object a line for each lot.")
  private boolean json;

  @Override
  public Integer call() {
    try (StoreReader store = OpenedStore.toRead(data)) {
      print(store.journal().filamentLots(), spec.commandLine().getOut());
    }
    return ExitCode.OK;
  }

  private void print(List<FilamentLot> lots, PrintWriter out) {
    if (json) {
      lots.forEach(lot -> JsonLine.print(out, NoteJson.of(lot)));
    } else if (lots.isEmpty()) {
      out.println(
          data.in(
              "No filament lots yet. Add one: snick lot add LOT --material TEXT --diameter MM"));
    } else {
      Table table = new Table("LOT", "WHAT IS NOTED");
      lots.forEach(lot -> table.row(lot.lot(), Said.raw(lot.told())));
      table.print(out);
    }
  }
}
