package snick.cli.cuts;

import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import snick.cli.option.DataCommand;
import snick.cli.option.OpenedStore;
import snick.cli.terminal.Numbers;
import snick.cli.terminal.Refusal;
import snick.cli.terminal.Table;
import snick.cli.terminal.WallTime;
import snick.cut.Peak;
import snick.quantity.MeasuredForce;
import snick.store.JournalReader;
import snick.store.StoreReader;
import snick.store.record.CutSelection;
import snick.store.record.CutSummary;

/** Lists stored cuts. */
@Command(
    name = "list",
    description = "List stored cuts, newest first.",
    footer = {
      "  snick cuts list",
      "  snick cuts list --limit 100 --json",
      "  snick cuts list --session 2026-05-03-a"
    })
final class CutsListCommand extends DataCommand implements Runnable {
  private static final int MOST = 1_000_000;
  private static final int MORE = 5;

  @Option(
      names = "--limit",
      paramLabel = "N",
      defaultValue = "20",
      description = "At most so many (default: ${DEFAULT-VALUE}).")
  private int limit;

  @Option(names = "--session", paramLabel = "SESSION", description = "Only those of one session.")
  private Optional<String> session;

  @Option(names = "--blade", paramLabel = "LABEL", description = "Only sessions with one blade.")
  private Optional<String> blade;

  @Option(names = "--json", description = "One JSON object a line for each cut.")
  private boolean json;

  @Override
  public void run() {
    if (!(limit >= 1 && limit <= MOST)) {
      throw Refusal.usage("--limit " + limit + " is outside 1 to " + MOST);
    }
    try (StoreReader store = OpenedStore.toRead(data)) {
      print(store.latest(selection(store.journal()), limit + 1));
    }
  }

  private CutSelection selection(JournalReader journal) {
    CutSelection all = CutSelection.all();
    CutSelection some =
        session.map(typed -> all.inSession(journal.sessionMeant(typed))).orElse(all);
    return blade.map(typed -> some.ofBlade(journal.bladeMeant(typed).label())).orElse(some);
  }

  private String next() {
    return limit < MOST ? "--limit " + Math.min(MOST, (long) MORE * limit) : "snick export TARGET";
  }

  /** One more than wanted tells that there are more: counting them all would read them all. */
  private void print(List<CutSummary> found) {
    List<CutSummary> cuts = found.subList(0, Math.min(limit, found.size()));
    tellEach(
        json,
        cuts,
        StoredCutJson::of,
        data.in("No cuts yet; " + OpenedStore.HOW_TO_RECORD),
        () -> {
          table(cuts).print(out());
          if (found.size() > limit) {
            println(data.in("The newest " + limit + "; more: " + next()));
          }
        });
  }

  private static Table table(List<CutSummary> cuts) {
    Table table = new Table("ID", "WHEN", "OUTCOME", ">FORCE", ">", "STAGE", ">MM", "NOTES");
    for (CutSummary cut : cuts) {
      table.row(
          cut.id(),
          WallTime.of(cut.occurredAt()),
          cut.figures().outcome().plain(),
          force(cut).map(Numbers::gramForce).orElseGet(() -> counts(cut)),
          force(cut).map(Numbers::newtons).orElse(""),
          cut.place().map(p -> p.stage().name()).orElse(""),
          cut.place()
              .filter(p -> p.placeMm().isPresent())
              .map(p -> Numbers.fixed(p.placeMm().getAsDouble(), 0))
              .orElse(""),
          notes(cut));
    }
    return table;
  }

  private static Optional<MeasuredForce> force(CutSummary cut) {
    return cut.figures().breakNanos().isPresent()
        ? cut.force().flatMap(f -> f.estimate().measured())
        : Optional.empty();
  }

  private static String counts(CutSummary cut) {
    return cut.figures()
        .peak()
        .filter(p -> cut.figures().breakNanos().isPresent())
        .map(CutsListCommand::counts)
        .orElse("");
  }

  private static String counts(Peak peak) {
    return Numbers.plusMinus(peak.estimateCounts(), 2 * peak.standardUncertaintyCounts())
        + " counts";
  }

  private static String notes(CutSummary cut) {
    String flags = EventLine.words(cut.figures().flags());
    return cut.setAside()
        .map(why -> "set aside: " + why + (flags.isEmpty() ? "" : "; " + flags))
        .orElse(flags);
  }
}
