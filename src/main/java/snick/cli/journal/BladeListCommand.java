package snick.cli.journal;

import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import snick.cli.option.ReadingCommand;
import snick.cli.terminal.Table;
import snick.journal.Blade;
import snick.store.StoreReader;

/** Lists blades. */
@Command(
    name = "list",
    description = "List blades as they stand.",
    footer = {"  snick blade list", "  snick blade list --json"})
final class BladeListCommand extends ReadingCommand {

  @Option(names = "--json", description = "One JSON object a line for each blade.")
  private boolean json;

  @Override
  protected void read(StoreReader store) {
    List<Blade> blades = store.journal().blades();
    tellEach(
        json,
        blades,
        NoteJson::of,
        data.in("No blades yet. Add one: snick blade add LABEL"),
        () -> table(blades).print(out()));
  }

  private static Table table(List<Blade> blades) {
    Table table = new Table("BLADE", "STEEL", ">HRC", ">ANGLE °", ">BEHIND EDGE mm", ">EDGE mm");
    for (Blade blade : blades) {
      table.row(
          blade.label(),
          blade.steel(),
          JournalText.number(blade.hardnessHrc()),
          JournalText.number(blade.edgeAngleDegrees()),
          JournalText.number(blade.thicknessBehindEdgeMm()),
          JournalText.number(blade.edgeLengthMm()));
    }
    return table;
  }
}
