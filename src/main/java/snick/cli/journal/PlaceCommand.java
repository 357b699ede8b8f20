package snick.cli.journal;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.option.NotingCommand;
import snick.cli.option.OpenedJournal;
import snick.cli.option.SessionChoice;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.Refusal;
import snick.journal.CutPlacement;
import snick.journal.Entry;
import snick.journal.SessionLog;
import snick.journal.StageEntry;
import snick.store.SessionEvidence;
import snick.store.record.CutSelection;
import snick.store.record.CutSummary;

/** Says where a cut was made. */
@Command(
    name = "place",
    description = {
      "Say where on the edge a cut was made, mm from the heel, or to which stage it belongs.",
      "What was said before is kept as a corrected entry."
    },
    footer = {
      "  snick place 35                 the last cut of the running session",
      "  snick place 35 --cut 12",
      "  snick place --cut 12 --stage deburred --why 'the stage was begun too late'",
    })
public final class PlaceCommand extends NotingCommand {
  @Parameters(arity = "0..1", paramLabel = "MM", description = "Distance from the heel, mm.")
  private Optional<Double> millimetres;

  @Option(names = "--cut", paramLabel = "ID", description = "The cut (default: the last one).")
  private Optional<Long> cutId;

  @Option(names = "--why", paramLabel = "TEXT", description = "Reason for a correction.")
  private Optional<String> why;

  @Mixin private SessionChoice session;
  @Mixin private StageChoice stage;

  @Override
  protected void note(OpenedJournal journal) {
    CutSummary cut = cut(journal);
    SessionLog log =
        cut.place()
            .map(place -> SessionEvidence.read(journal.reader(), place.session()).log())
            .orElseGet(() -> journal.log(session));
    Entry<StageEntry> entry = note(journal, log, cut);
    tell(journal, log, entry);
  }

  private CutSummary cut(OpenedJournal journal) {
    return cutId.map(journal::cut).orElseGet(() -> last(journal));
  }

  private CutSummary last(OpenedJournal journal) {
    String name = session.toWrite(journal.reader());
    List<CutSummary> latest = journal.reader().latest(CutSelection.all().inSession(name), 1);
    if (latest.isEmpty()) {
      throw Refusal.badInput(
          "session '%s' has no cuts yet; record one first: snick run PORT, or name one that"
              + " was made before: --cut ID, see snick cuts list",
          name);
    }
    return latest.get(0);
  }

  private Entry<StageEntry> note(OpenedJournal journal, SessionLog log, CutSummary cut) {
    Optional<Entry<StageEntry>> before = log.placement(cut.id());
    Optional<CutPlacement> placed = before.map(entry -> (CutPlacement) entry.content());
    CutPlacement now =
        new CutPlacement(
            placed.map(CutPlacement::at).orElseGet(() -> at(log, cut)),
            stage.in(log, placed).name(),
            cut.id(),
            millimetres
                .map(OptionalDouble::of)
                .orElse(placed.map(CutPlacement::placeMm).orElse(OptionalDouble.empty())));
    String name = log.session().name();
    return before.isPresent()
        ? journal.writer().correct(name, before.get().id(), now, why.orElse("place noted later"))
        : journal.writer().add(name, now);
  }

  private static Instant at(SessionLog log, CutSummary cut) {
    Instant opened = log.session().opened();
    return cut.occurredAt().isBefore(opened) ? opened : cut.occurredAt();
  }

  private void tell(OpenedJournal journal, SessionLog log, Entry<StageEntry> entry) {
    SessionEvidence now = SessionEvidence.read(journal.reader(), log.session().name());
    println(
        JournalText.head(entry)
            + JournalText.entry(entry.content())
            + ", stage '"
            + PlainText.inert(entry.content().stage())
            + "'; "
            + data.in(JournalText.next(now.nextPlace())));
  }
}
