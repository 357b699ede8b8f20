package snick.cli.lot;

import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import snick.cli.journal.NoteJson;
import snick.cli.option.ReadingCommand;
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
    List<FilamentLot> lots = store.journal().filamentLots();
    Table table = new Table("LOT", "WHAT IS NOTED");
    lots.forEach(lot -> table.row(lot.lot(), Said.raw(lot.told())));
    tellEach(
        json,
        lots,
        NoteJson::of,
        data.in("No filament lots yet. Add one: snick lot add LOT --material TEXT --diameter MM"),
        () -> table.print(out()));
  }
}
