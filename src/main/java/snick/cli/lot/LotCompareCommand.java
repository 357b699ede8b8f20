package snick.cli.lot;

import java.io.PrintWriter;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import snick.cli.journal.ReferenceEdge;
import snick.cli.option.DataDirectory;
import snick.cli.option.JudgeChoice;
import snick.cli.option.OpenedStore;
import snick.cli.terminal.ExitCode;
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
    mixinStandardHelpOptions = true,
    description = {
      "Compare a new lot with the old one on a reference edge that was not touched in between: "
          + "all cuts that count of its sessions with either lot."
    },
    footerHeading = "%nExample (invented):%n",
    footer = "  snick lot compare spool-a spool-b --blade reference --margin 5")
final class LotCompareCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

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
  @Mixin private DataDirectory data;

  @Option(names = "--json", description = "As one JSON object, as compare prints it.")
  private boolean json;

  @Override
  public Integer call() {
    Comparison comparison;
    List<Phrase> differences;
    try (StoreReader store = OpenedStore.toRead(data)) {
      JournalReader journal = store.journal();
      differences = journal.lotMeant(before).differences(journal.lotMeant(after));
      comparison =
          judge
              .judge(data.settings())
              .compare(
                  ReferenceEdge.cuts(store, blade, before).readings("lot " + before),
                  ReferenceEdge.cuts(store, blade, after).readings("lot " + after));
    }
    print(comparison, differences, spec.commandLine().getOut());
    return ExitCode.OK;
  }

  private void print(Comparison comparison, List<Phrase> differences, PrintWriter out) {
    if (json) {
      JsonLine.printWhole(out, ComparisonJson.of(comparison));
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
