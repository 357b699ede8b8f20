package snick.cli.journal;

import java.io.PrintWriter;
import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.option.ReadingCommand;
import snick.journal.Blade;
import snick.journal.Entry;
import snick.report.plot.BladeStory;
import snick.store.JournalReader;
import snick.store.StoreReader;

/** Shows one blade. */
@Command(
    name = "show",
    description = {
      "Show a blade: what is noted of it, the force at the end of each session, how it changed"
          + " until the next one, and what each sharpening step was worth on its steel so far.",
      "A force goes on only where rig, filament lot and calibration stayed the same."
    },
    footer = {"  snick blade show kitchen-1", "  snick blade show kitchen-1 --json"})
final class BladeShowCommand extends ReadingCommand {
  @Parameters(paramLabel = "LABEL", description = "Its label.")
  private String label;

  @Option(names = "--json", description = "As one JSON object, forces in gf.")
  private boolean json;

  @Override
  protected void read(StoreReader store) {
    PrintWriter out = out();
    Blade blade = store.journal().bladeMeant(label);
    BladeText text = new BladeText(BladeStory.read(store, blade, data.settings().marginGf()));
    tell(
        json,
        () -> text.json(),
        () -> {
          print(store.journal(), blade, out);
          text.print(out);
        });
  }

  private static void print(JournalReader journal, Blade blade, PrintWriter out) {
    out.println(JournalText.blade(blade));
    List<Entry<Blade>> history = journal.bladeHistory(blade.label());
    if (history.size() > 1) {
      out.println("entries, oldest first:");
      history.forEach(
          entry ->
              out.println("  " + JournalText.head(entry) + JournalText.blade(entry.content())));
    }
    journal
        .amendmentsOfBlade(blade.label())
        .forEach(entry -> out.println("  " + JournalText.amendment(entry)));
  }
}
