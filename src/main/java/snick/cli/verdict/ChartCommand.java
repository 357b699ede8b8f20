package snick.cli.verdict;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import snick.cli.journal.ReferenceEdge;
import snick.cli.option.DataCommand;
import snick.cli.option.OpenedStore;
import snick.cli.option.TypedValues;
import snick.cli.terminal.ExitCode;
import snick.cli.terminal.Figures;
import snick.cli.terminal.Refusal;
import snick.cli.terminal.Said;
import snick.cli.terminal.Table;
import snick.store.StoreReader;
import snick.verdict.statistic.Readings;
import snick.verdict.study.ReferenceChart;

/** Control chart of a reference edge. */
@Command(
    name = "chart",
    description = {
      "Control chart of a reference edge with one filament lot: its first cuts set the limits, "
          + "later ones are held against them. Limits are the wider the shorter the baseline, and "
          + "the false alarms to expect are told. Exit status 3 if one stands outside."
    },
    footerHeading = "%nExamples (invented):%n",
    footer = {
      "  snick chart --blade reference --lot spool-b",
      "  snick chart --blade reference --baseline 20 --json",
      "  snick chart --values 91,94,90,95,93,92,96,91 --values 95,92,108",
    })
public final class ChartCommand extends DataCommand implements Callable<Integer> {
  @Option(names = "--blade", paramLabel = "LABEL", description = "The reference edge.")
  private Optional<String> blade = Optional.empty();

  @Option(names = "--lot", paramLabel = "LOT", description = "Only cuts with this lot.")
  private Optional<String> lot = Optional.empty();

  @Option(
      names = "--baseline",
      paramLabel = "N",
      defaultValue = "8",
      description = "So many first cuts set the limits (default and least: ${DEFAULT-VALUE}).")
  private int baseline;

  @Option(
      names = "--values",
      paramLabel = "GF,GF,...",
      description = "Typed values instead: baseline, then later ones.")
  private List<String> values = List.of();

  @Option(names = "--json", description = "As one JSON object, every digit.")
  private boolean json;

  @Override
  public Integer call() {
    if (blade.isPresent() == (values.size() == 2) || values.size() % 2 != 0) {
      throw Refusal.usage("give either --blade LABEL, or --values twice");
    }
    Readings first;
    Readings later;
    if (blade.isEmpty()) {
      first = TypedValues.parse("baseline", values.get(0));
      later = TypedValues.parse("later cuts", values.get(1));
    } else {
      double[] all = stored();
      first = Readings.ofGramForce("baseline", Arrays.copyOf(all, baseline));
      later = Readings.ofGramForce("later cuts", Arrays.copyOfRange(all, baseline, all.length));
    }
    ReferenceChart chart = ReferenceChart.of(first, later);
    tell(json, () -> object(chart, later), () -> print(out(), chart, later));
    return chart.signals().isEmpty() ? ExitCode.OK : ExitCode.NOT_PASSED;
  }

  private double[] stored() {
    if (!(baseline >= ReferenceChart.LEAST && baseline <= Readings.LIMIT)) {
      throw Refusal.usage(
          "--baseline %s is outside %s to %s", baseline, ReferenceChart.LEAST, Readings.LIMIT);
    }
    try (StoreReader store = OpenedStore.toRead(data)) {
      ReferenceEdge edge = ReferenceEdge.of(store, blade.orElseThrow(), lot);
      if (edge.gramForce().size() <= baseline) {
        throw Refusal.badInput(
            "blade '%s' has %s cuts with a force; the baseline takes %s, and at least one more"
                + " is held against it",
            edge.blade(), edge.gramForce().size(), baseline);
      }
      return edge.gramForceInOrder();
    }
  }

  private static void print(PrintWriter out, ReferenceChart chart, Readings later) {
    out.println(Said.of(chart.reason().evidence()) + ".");
    Table table = new Table(">LATER CUT", ">gf", ">WEIGHTED MEAN", ">ITS LIMITS", "SIGNAL");
    double[] gramForce = later.gramForce();
    for (int i = 0; i < gramForce.length; i++) {
      table.row(
          i + 1,
          Figures.number(gramForce[i]),
          Figures.number(chart.weighted().get(i).average()),
          Figures.number(chart.weighted().get(i).lower())
              + " to "
              + Figures.number(chart.weighted().get(i).upper()),
          String.join(", ", signals(chart, i)));
    }
    table.print(out);
    out.println(
        "Rule: " + Said.of(chart.reason().rule()) + " (" + Said.of(chart.reason().source()) + ").");
  }

  private static List<String> signals(ReferenceChart chart, int index) {
    return chart.signals().stream()
        .filter(signal -> signal.index() == index)
        .map(signal -> signal.limit().plain())
        .collect(Collectors.toCollection(ArrayList::new));
  }

  private static Map<String, Object> object(ReferenceChart chart, Readings later) {
    Map<String, Object> object = new LinkedHashMap<>();
    object.put("centre", chart.limits().centre());
    object.put("lower", chart.limits().lower());
    object.put("upper", chart.limits().upper());
    object.put("upper_range", chart.limits().upperRange());
    object.put("baseline", chart.limits().count());
    object.put("expected_false_alarms", chart.limits().expectedFalseAlarms(later.count()));
    List<Object> cuts = new ArrayList<>();
    double[] gramForce = later.gramForce();
    for (int i = 0; i < gramForce.length; i++) {
      Map<String, Object> cut = new LinkedHashMap<>();
      cut.put("value", gramForce[i]);
      cut.put("weighted_mean", chart.weighted().get(i).average());
      cut.put("signals", signals(chart, i));
      cuts.add(cut);
    }
    object.put("cuts", cuts);
    object.put("reason", Said.raw(chart.reason().text()));
    return object;
  }
}
