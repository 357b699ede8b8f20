package snick.cli.lot;

import java.io.PrintWriter;
import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import snick.cli.journal.NoteJson;
import snick.cli.option.ReadingCommand;
import snick.cli.terminal.JsonLine;
import snick.cli.terminal.Said;
import snick.cli.terminal.Table;
import snick.journal.FilamentLot;
import snick.store.StoreReader;

/** Lists filament lots. */
@Command(
    name = "list",
    description = "List filament lots as they stand.",
    footer = {"  snick lot list", "  snick lot list --json"})
final class LotListCommand extends ReadingCommand {

  @Option(names = "--json", description = "One JSON object a line for each lot.")
  private boolean json;

  @Override
  protected void read(StoreReader store) {
    print(store.journal().filamentLots(), out());
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
