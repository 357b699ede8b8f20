package snick.cli.cuts;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.option.ReadingCommand;
import snick.cli.terminal.JsonLine;
import snick.cli.terminal.Numbers;
import snick.cli.terminal.Refusal;
import snick.cli.terminal.Sparkline;
import snick.cli.terminal.WallTime;
import snick.cut.Cut;
import snick.cut.CutFigures;
import snick.cut.Peak;
import snick.force.budget.CombinedUncertainty;
import snick.json.Json;
import snick.quantity.Attribute;
import snick.report.sheet.BudgetJson;
import snick.store.StoreReader;
import snick.store.record.Credit;
import snick.store.record.Origin;
import snick.store.record.StoredCut;
import snick.store.record.StoredForce;

/** Shows one stored cut. */
@Command(
    name = "show",
    description =
        "Show one stored cut: its figures, its trace, every force it was given, the budget of the"
            + " current one.",
    footer = {"  snick cuts show 12", "  snick cuts show 12 --json"})
final class CutsShowCommand extends ReadingCommand {
  private static final int TRACE_COLUMNS = 76;

  /** Below it a decimal is told. */
  private static final double SMALL = 100;

  /** Figures that have lines of their own, or are in the picture of the trace. */
  private static final Set<String> SAID_OTHERWISE =
      Set.of(
          "outcome",
          "polarity",
          "onset_s",
          "break_s",
          "observed_max_counts",
          "estimate_counts",
          "u_counts",
          "flags");

  @Parameters(paramLabel = "ID", description = "Id of the cut, as 'snick cuts list' shows it.")
  private long id;

  @Option(names = "--json", description = "As one JSON object, raw samples included.")
  private boolean json;

  @Override
  protected void read(StoreReader store) {
    StoredCut cut =
        store
            .cut(id)
            .orElseThrow(
                () -> Refusal.badInput("no cut " + id + "; see which there are: snick cuts list"));
    if (json) {
      Map<String, Object> object = StoredCutJson.withTrace(cut);
      EstimateParts.of(cut.cut()).ifPresent(p -> object.put("estimate_budget", p.json()));
      CutBudget.of(cut, store).ifPresent(b -> object.put("budget", BudgetJson.of(b)));
      store.originOfCut(id).ifPresent(from -> object.put("origin", json(from)));
      store.creditOfCut(id).ifPresent(credit -> object.put("credit", json(credit)));
      JsonLine.print(out(), object);
    } else {
      print(cut, store.forces(id), store.originOfCut(id), store.creditOfCut(id));
      CutBudget.of(cut, store)
          .filter(budget -> budget.standardNewtons() > 0)
          .ifPresent(this::printBudget);
    }
  }

  private void print(
      StoredCut stored,
      List<StoredForce> forces,
      Optional<Origin.Taken> origin,
      Optional<Credit> credit) {
    Cut cut = stored.cut();
    println("Cut " + id + ", " + WallTime.of(stored.summary().occurredAt()));
    line("outcome", cut.outcome().plain());
    cut.peak().ifPresent(peak -> printPeak(cut, peak));
    String force = cut.breakNanos().isPresent() ? "force" : "largest force";
    forces.forEach(each -> printForce(force, each));
    stored.summary().standing().missing().ifPresent(why -> line("no force", why + remedy()));
    CutFigures.ATTRIBUTES.stream()
        .filter(figure -> !SAID_OTHERWISE.contains(figure.name()))
        .forEach(figure -> figure.value(cut.figures()).ifPresent(value -> line(figure, value)));
    stored.summary().setAside().ifPresent(why -> line("set aside", why));
    origin.ifPresent(from -> line("origin", origin(from)));
    credit.ifPresent(of -> line("work of", terms(of)));
    if (!cut.flags().isEmpty()) {
      line("flags", EventLine.words(cut.flags()));
    }
    out().println();
    printTrace(cut);
  }

  private void printTrace(Cut cut) {
    if (cut.trace().size() == 0) {
      println("  no trace: typed in, or salvaged without");
      return;
    }
    println("  " + Sparkline.of(cut.trace(), cut.polarity(), TRACE_COLUMNS));
    println("  " + span(cut));
  }

  private static String origin(Origin.Taken from) {
    return "%s %s, taken in %s, SHA-256 %s"
        .formatted(
            from.origin().kind(),
            from.origin().name(),
            WallTime.of(from.takenIn()),
            from.origin().sha256().substring(0, 12));
  }

  private static String terms(Credit credit) {
    String by =
        credit.contributors().isEmpty() ? "unnamed" : String.join(", ", credit.contributors());
    return by + credit.licence().map(name -> ", under " + name).orElse(", without a licence");
  }

  private static Map<String, Object> json(Credit credit) {
    return Json.object(
        "licence", credit.licence(),
        "contributors", credit.contributors(),
        "title", credit.title());
  }

  private static Map<String, Object> json(Origin.Taken from) {
    return Json.object(
        "kind", from.origin().kind(),
        "name", from.origin().name(),
        "title", from.origin().document(),
        "taken_in", from.takenIn().toString(),
        "sha256", from.origin().sha256());
  }

  private void printBudget(CombinedUncertainty budget) {
    out().println();
    CutBudget.print(out(), budget);
  }

  private String remedy() {
    return "; with a calibration that fits it gets one by: " + data.in("snick rederive");
  }

  private void printPeak(Cut cut, Peak peak) {
    line("largest sample", Numbers.fixed(peak.observedMaxCounts(), 0) + " counts above zero");
    if (cut.breakNanos().isPresent()) {
      line(
          "at the break",
          Numbers.plusMinus(peak.estimateCounts(), 2 * peak.standardUncertaintyCounts())
              + " counts (k = 2, the estimate alone)");
      EstimateParts.of(cut).ifPresent(this::printParts);
    }
  }

  private void printParts(EstimateParts parts) {
    line("made of", parts.words());
    parts.hint().ifPresent(hint -> line("most of it", hint));
  }

  /** Where the filament did not part, it is the force of the largest sample. */
  private void printForce(String name, StoredForce force) {
    force
        .force()
        .estimate()
        .measured()
        .ifPresent(
            f ->
                line(
                    name,
                    "%s = %s (k = 2), %s"
                        .formatted(
                            Numbers.newtons(f),
                            Numbers.gramForce(f),
                            EventLine.source(force.force().estimate()))));
  }

  /** A figure under its name, the unit at the end of which stands behind the number. */
  private void line(Attribute<?> figure, Object value) {
    String unit = figure.unit();
    String suffix = "_" + unit.replace("/", "_per_");
    String name =
        unit.isEmpty() || !figure.name().endsWith(suffix)
            ? figure.name()
            : figure.name().substring(0, figure.name().length() - suffix.length());
    line(name.replace('_', ' '), amount(value, unit) + ": " + lowerCase(figure.meaning()));
  }

  private static String amount(Object value, String unit) {
    if (value instanceof Long nanos) {
      return Numbers.fixed(nanos / 1e6, 1) + " ms";
    }
    String number =
        value instanceof Double real
            ? Numbers.fixed(real, Math.abs(real) < SMALL ? 1 : 0)
            : value.toString();
    return unit.isEmpty() ? number : number + " " + unit;
  }

  private static String lowerCase(String meaning) {
    return meaning.substring(0, 1).toLowerCase(Locale.ROOT) + meaning.substring(1);
  }

  private static String span(Cut cut) {
    int size = cut.trace().size();
    double seconds = (cut.trace().deviceNanos(size - 1) - cut.trace().deviceNanos(0)) / 1e9;
    return size + " samples, " + Numbers.fixed(seconds, 2) + " s";
  }
}
