package snick.cli.journal;

import java.io.PrintWriter;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import snick.cli.option.DataDirectory;
import snick.cli.option.OpenedStore;
import snick.cli.terminal.ExitCode;
import snick.cli.terminal.JsonLine;
import snick.cli.terminal.Table;
import snick.journal.Blade;
import snick.store.StoreReader;

/** Lists blades. */
@Command(
    name = "list",
    mixinStandardHelpOptions = true,
    description = "List blades as they stand.",
    footerHeading = "%nExamples:%n",
    footer = {"  snick blade list", "  snick blade list --json"})
final class BladeListCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private DataDirectory data;

  @Option(names = "--json", description = "One JSON object a line for each blade.")
  private boolean json;

  @Override
  public Integer call() {
    try (StoreReader store = OpenedStore.toRead(data)) {
      print(store.journal().blades(), spec.commandLine().getOut());
    }
    return ExitCode.OK;
  }

  private void print(List<Blade> blades, PrintWriter out) {
    if (json) {
      blades.forEach(blade -> JsonLine.print(out, NoteJson.of(blade)));
    } else if (blades.isEmpty()) {
      out.println(data.in("No blades yet. Add one: snick blade add LABEL"));
    } else {
      table(blades).print(out);
    }
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
