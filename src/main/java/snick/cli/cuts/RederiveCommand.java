package snick.cli.cuts;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import snick.cli.calibration.ChosenCalibration;
import snick.cli.option.DataCommand;
import snick.cli.option.OpenedStore;
import snick.cli.terminal.JsonLine;
import snick.cli.terminal.Numbers;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.Progress;
import snick.cli.terminal.Refusal;
import snick.cli.terminal.Table;
import snick.cli.terminal.Terminal;
import snick.cut.Cut;
import snick.force.budget.Calibration;
import snick.json.Json;
import snick.quantity.MeasuredForce;
import snick.store.Store;
import snick.store.StoreReader;
import snick.store.database.StoreException;
import snick.store.record.CutSelection;
import snick.store.record.NewResult;

/** Derives stored cuts again under a new calibration or a new detector. */
@Command(
    name = "rederive",
    description = {
      "Derive stored cuts again from their traces: with a newer calibration, or with the detector of"
          + " this version. All earlier results and forces are kept; see them with 'snick cuts show'."
    },
    footer = {
      "  snick rederive --diff                        what would change; stores nothing",
      "  snick rederive                               each rig's newest calibration",
      "  snick rederive --calibration cal-0123 --session 'evening 2026-05-03'",
      "  snick rederive --detect --diff               look at every trace again"
    })
public final class RederiveCommand extends DataCommand implements Runnable {
  private static final int BATCH = 200;
  private static final int SHOWN = 20;

  @Option(
      names = "--calibration",
      paramLabel = "ID",
      description = "Use this one (default: the newest of each rig). A stranger is refused.")
  private Optional<String> id;

  @Option(
      names = "--detect",
      description =
          "Run the detector on every trace, with what is known of the rig by now, not only on those"
              + " an older one judged.")
  private boolean detect;

  @Option(names = "--session", paramLabel = "SESSION", description = "Only cuts of one session.")
  private Optional<String> session;

  @Option(names = "--blade", paramLabel = "LABEL", description = "Only cuts of one blade.")
  private Optional<String> blade;

  @Option(names = "--diff", description = "Only say what would change.")
  private boolean diff;

  @Option(names = "--json", description = "One JSON object a line for each cut that changes.")
  private boolean json;

  private final Map<String, Long> reasons = new TreeMap<>();
  private final List<NewResult> waiting = new ArrayList<>();
  private final List<Rederiver.Change> shown = new ArrayList<>();
  private long looked;
  private long changed;
  private long outcomes;
  private double largestRelative;
  private long beyond;

  @Override
  public void run() {
    try (StoreReader reader = OpenedStore.toRead(data);
        Store writer = OpenedStore.toWrite(data)) {
      Optional<Calibration> asked =
          id.map(beginning -> ChosenCalibration.of(reader, beginning).calibration());
      Rederiver rederiver = new Rederiver(reader, asked, detect);
      Progress progress =
          new Progress(err(), Terminal.watchesErrors(), reader.count(selection(reader)));
      reader.forEachCut(
          selection(reader),
          cut -> {
            take(rederiver.of(cut), writer);
            progress.at(looked, changed);
          });
      store(writer);
      progress.done();
    } catch (StoreException e) {
      throw Refusal.failed(
          e.getMessage() + "; what was derived before is stored, run it again for the rest", e);
    }
    summary();
  }

  private CutSelection selection(StoreReader store) {
    CutSelection selection = CutSelection.all();
    if (session.isPresent()) {
      selection = selection.inSession(store.journal().sessionMeant(session.get()));
    }
    return blade.isPresent()
        ? selection.ofBlade(store.journal().bladeMeant(blade.get()).label())
        : selection;
  }

  private void take(Rederiver.Change change, Store writer) {
    looked++;
    if (!change.why().isEmpty()) {
      reasons.merge(change.why(), 1L, Long::sum);
    }
    if (change.result().isEmpty()) {
      return;
    }
    count(change);
    if (!diff) {
      waiting.add(change.result().get());
      if (waiting.size() == BATCH) {
        store(writer);
      }
    }
  }

  private void count(Rederiver.Change change) {
    changed++;
    outcomes += change.outcomeBefore().equals(change.outcomeAfter()) ? 0 : 1;
    relative(change).ifPresent(r -> largestRelative = Math.max(largestRelative, Math.abs(r)));
    beyond += inFormerU(change).filter(n -> Math.abs(n) > 2).isPresent() ? 1 : 0;
    if (json) {
      JsonLine.print(out(), object(change));
    } else if (shown.size() < SHOWN) {
      shown.add(change);
    }
  }

  private void store(Store writer) {
    if (!waiting.isEmpty()) {
      writer.addResults(waiting);
      waiting.clear();
    }
  }

  private static Optional<Double> relative(Rederiver.Change change) {
    return change
        .before()
        .flatMap(
            before ->
                change
                    .after()
                    .map(after -> after.value().newtons() / before.value().newtons() - 1));
  }

  /** The change in terms of the standard uncertainty until now. */
  private static Optional<Double> inFormerU(Rederiver.Change change) {
    return change
        .before()
        .filter(before -> before.standardUncertainty().newtons() > 0)
        .flatMap(
            before ->
                change
                    .after()
                    .map(
                        after ->
                            (after.value().newtons() - before.value().newtons())
                                / before.standardUncertainty().newtons()));
  }

  private static Map<String, Object> object(Rederiver.Change change) {
    return Json.object(
        "cut", change.cutId(),
        "before_n", change.before().map(f -> f.value().newtons()),
        "u_before_n", change.before().map(f -> f.standardUncertainty().newtons()),
        "after_n", change.after().map(f -> f.value().newtons()),
        "u_after_n", change.after().map(f -> f.standardUncertainty().newtons()),
        "relative_change", relative(change),
        "change_in_former_u", inFormerU(change),
        "outcome_before", change.outcomeBefore(),
        "outcome_after", change.outcomeAfter(),
        "detector_version", Cut.DETECTOR_VERSION);
  }

  private void summary() {
    if (json) {
      return;
    }
    if (!shown.isEmpty()) {
      table().print(out());
    }
    if (changed > shown.size()) {
      println("and " + (changed - shown.size()) + " more; all of them: --json");
    }
    println(
        "%s cuts derived again, detector version %s; %s %s%s.",
        looked,
        Cut.DETECTOR_VERSION,
        changed,
        diff ? "would change" : "changed",
        changed > 0 ? change() : "");
    reasons.forEach((why, count) -> println(PlainText.inert(count + " cuts get no force: " + why)));
    if (diff && changed > 0) {
      println("Nothing is stored. To do it, leave --diff out; earlier results are kept.");
    }
  }

  private String change() {
    String differ = outcomes + " outcomes differ";
    return largestRelative > 0
        ? "; largest change of force %s %%, %s by more than 2 u as it was, %s"
            .formatted(Numbers.fixed(100 * largestRelative, 3), beyond, differ)
        : "; no force changes, " + differ;
  }

  private Table table() {
    Table table = new Table(">CUT", ">BEFORE", ">AFTER", ">CHANGE %", ">OF FORMER U", "OUTCOME");
    for (Rederiver.Change change : shown) {
      boolean same = change.outcomeBefore().equals(change.outcomeAfter());
      table.row(
          change.cutId(),
          force(change.before()),
          force(change.after()),
          relative(change).map(r -> Numbers.fixed(100 * r, 3)).orElse(""),
          inFormerU(change).map(n -> Numbers.fixed(n, 2)).orElse(""),
          same ? change.outcomeAfter() : change.outcomeBefore() + " → " + change.outcomeAfter());
    }
    return table;
  }

  private static String force(Optional<MeasuredForce> force) {
    return force.map(Numbers::gramForce).orElse("none");
  }
}
