package snick.cli.lot;

import java.io.PrintWriter;
import java.util.List;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.journal.ReferenceEdge;
import snick.cli.option.JudgeChoice;
import snick.cli.option.ReadingCommand;
import snick.cli.terminal.JsonLine;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.Said;
import snick.cli.verdict.ComparisonJson;
import snick.cli.verdict.ComparisonText;
import snick.phrase.Phrase;
import snick.store.JournalReader;
import snick.store.StoreReader;
import snick.verdict.comparison.Comparison;

/** Compares two filament lots on a reference edge. */
@Command(
    name = "compare",
    description = {
      "Compare a new lot with the old one on a reference edge that was not touched in between: "
          + "all cuts that count of its sessions with either lot."
    },
    footerHeading = "%nExample (invented):%n",
    footer = "  snick lot compare spool-a spool-b --blade reference --margin 5")
final class LotCompareCommand extends ReadingCommand {
  @Parameters(index = "0", paramLabel = "OLD", description = "The lot so far.")
  private String before;

  @Parameters(index = "1", paramLabel = "NEW", description = "The new lot.")
  private String after;

  @Option(
      names = "--blade",
      paramLabel = "LABEL",
      required = true,
      description = "The reference edge.")
  private String blade;

  @Mixin private JudgeChoice judge;

  @Option(names = "--json", description = "As one JSON object, as compare prints it.")
  private boolean json;

  @Override
  protected void read(StoreReader store) {
    JournalReader journal = store.journal();
    List<Phrase> differences = journal.lotMeant(before).differences(journal.lotMeant(after));
    Comparison comparison =
        judge
            .judge(data.settings())
            .compare(
                ReferenceEdge.cuts(store, blade, before).readings("lot " + before),
                ReferenceEdge.cuts(store, blade, after).readings("lot " + after));
    print(comparison, differences, out());
  }

  private void print(Comparison comparison, List<Phrase> differences, PrintWriter out) {
    if (json) {
      JsonLine.print(out, ComparisonJson.of(comparison));
    } else {
      new ComparisonText(comparison).print(out);
      if (!differences.isEmpty()) {
        out.println(
            PlainText.inert(
                "The lots differ by themselves: "
                    + differences.stream().map(Said::raw).collect(Collectors.joining("; "))
                    + ". Tension, thickness and kind move the force at the break."));
      }
    }
  }
}
