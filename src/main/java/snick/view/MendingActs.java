package snick.view;

import java.util.Optional;
import java.util.function.Function;
import snick.journal.Blade;
import snick.journal.FilamentLot;
import snick.journal.Inspection;
import snick.journal.Session;
import snick.journal.SessionLog;
import snick.journal.SetAside;
import snick.journal.SharpeningStep;
import snick.journal.StageEntry;
import snick.journal.Withdrawn;
import snick.journal.name.Field;
import snick.json.Json;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;
import snick.store.JournalReader;
import snick.store.Mending;
import snick.store.record.CutPlace;
import snick.view.bench.Bench;
import snick.view.http.Fields;
import snick.view.http.HttpAnswer;

/**
 * Mends from the page what went wrong, in any session, open or closed. What was there before stays
 * in the record. Sessions go by their number.
 */
final class MendingActs {
  private static final String USUAL_REASON = "mended on the page"; // kept in the record

  private final Bench bench;
  private final Board board;

  MendingActs(Bench bench, Board board) {
    this.bench = bench;
    this.board = board;
  }

  /** Runs {@code act} with what was sent; says what it says. */
  private HttpAnswer mend(byte[] body, Function<Fields, String> act) {
    Fields fields = Fields.of(body);
    return board.change(() -> HttpAnswer.json(200, Json.object("done", act.apply(fields))));
  }

  /** Opens a session again that was ended. */
  HttpAnswer reopen(long number, byte[] body) {
    return mend(
        body,
        fields -> {
          mending().reopen(name(number), why(fields));
          return name(number);
        });
  }

  /** Gives a session another name. */
  HttpAnswer rename(long number, byte[] body) {
    return mend(
        body,
        fields -> {
          mending().renameSession(name(number), fields.needed("name"), why(fields));
          return name(number);
        });
  }

  /** Says that a session was made with another blade, which is known already. */
  HttpAnswer changeBlade(long number, byte[] body) {
    return mend(
        body,
        fields -> {
          Session session = journal().session(name(number)).orElseThrow();
          Blade blade = journal().bladeMeant(fields.needed("blade"));
          bench.writer().journal().correct(session.withBlade(blade.label()), why(fields));
          return blade.label();
        });
  }

  /** Says with which filament lot a session was made; none: not noted. */
  HttpAnswer changeLot(long number, byte[] body) {
    return mend(
        body,
        fields -> {
          Session session = journal().session(name(number)).orElseThrow();
          Optional<String> lot =
              fields.text("filament_lot").map(journal()::lotMeant).map(FilamentLot::lot);
          bench.writer().journal().correct(session.withLot(lot), why(fields));
          return lot.orElse("");
        });
  }

  /** Gives a stage another name. */
  HttpAnswer renameStage(long number, byte[] body) {
    return mend(
        body,
        fields -> {
          String after = fields.needed("name").strip();
          mending().renameStage(name(number), fields.needed("stage"), after, why(fields));
          return after;
        });
  }

  /** Puts what is in one stage into another. */
  HttpAnswer mergeStage(long number, byte[] body) {
    return mend(
        body,
        fields -> {
          String into = fields.needed("into");
          mending().mergeStage(name(number), fields.needed("stage"), into, why(fields));
          return into;
        });
  }

  /** Moves a cut to a stage, of its own session unless another is named. */
  HttpAnswer moveCut(long cut, byte[] body) {
    return mend(
        body,
        fields -> {
          String session =
              fields.text("session").map(journal()::sessionMeant).orElseGet(() -> sessionOf(cut));
          return mending()
              .moveCut(cut, session, fields.needed("stage"), why(fields))
              .content()
              .stage();
        });
  }

  /** Lets a cut count again that was set aside. */
  HttpAnswer countAgain(long cut, byte[] body) {
    return mend(
        body,
        fields -> {
          SetAside back = SetAside.takenBack(bench.clock().instant(), cut, why(fields));
          bench.writer().journal().setAside(sessionOf(cut), back);
          return Long.toString(cut);
        });
  }

  /** Withdraws a step or an inspection; the undo on the page notes it anew. */
  HttpAnswer withdraw(long number, long entry, byte[] body) {
    return mend(
        body,
        fields -> {
          String session = name(number);
          StageEntry content = standing(journal().log(session).orElseThrow(), entry);
          Withdrawn withdrawn = new Withdrawn(bench.clock().instant(), content.stage());
          bench.writer().journal().correct(session, entry, withdrawn, why(fields));
          board
              .undo()
              .done(
                  Phrase.of("done.withdrawn", "what", told(content)),
                  () -> bench.writer().journal().add(session, content));
          return content.stage();
        });
  }

  private static StageEntry standing(SessionLog log, long entry) {
    return log.entries().standing().stream()
        .filter(e -> e.id() == entry)
        .findFirst()
        .orElseThrow(() -> new NotAccepted("refused.entry_does_not_stand", "entry", entry))
        .content();
  }

  private static Object told(StageEntry content) {
    if (content instanceof Inspection look) {
      return look.told();
    }
    return content instanceof SharpeningStep step ? step.abrasive() : content.stage();
  }

  /** Gives a blade another label. */
  HttpAnswer renameBlade(byte[] body) {
    return mend(
        body,
        fields -> {
          String label = journal().bladeMeant(fields.needed("blade")).label();
          mending().renameBlade(label, fields.needed("name"), why(fields));
          return fields.needed("name");
        });
  }

  /** Makes two blades one. */
  HttpAnswer mergeBlade(byte[] body) {
    return mend(
        body,
        fields -> {
          String label = journal().bladeMeant(fields.needed("blade")).label();
          String into = journal().bladeMeant(fields.needed("into")).label();
          mending().mergeBlade(label, into, why(fields));
          return into;
        });
  }

  /** Says by how much the forces of a blade may differ before it matters; nothing: as usual. */
  HttpAnswer margin(byte[] body) {
    return mend(
        body,
        fields -> {
          Blade blade = journal().bladeMeant(fields.needed("blade"));
          bench
              .writer()
              .journal()
              .correct(blade.withMargin(fields.number("margin_gf")), why(fields));
          return blade.label();
        });
  }

  /** Says how long the edge of a blade is. */
  HttpAnswer edgeLength(byte[] body) {
    return mend(
        body,
        fields -> {
          Blade blade = journal().bladeMeant(fields.needed("blade"));
          double lengthMm =
              fields
                  .number("edge_length_mm")
                  .orElseThrow(
                      () ->
                          new NotAccepted("refused.missing", "field", Field.called("edge length")));
          bench.writer().journal().correct(blade.withEdgeLength(lengthMm), why(fields));
          return blade.label();
        });
  }

  /** Says of which steel a blade is, as its owner calls it; nothing: not noted. */
  HttpAnswer steel(byte[] body) {
    return mend(
        body,
        fields -> {
          Blade blade = journal().bladeMeant(fields.needed("blade"));
          Blade now = blade.withSteel(fields.text("steel").orElse(""));
          bench.writer().journal().correct(now, why(fields));
          return blade.label();
        });
  }

  private static String why(Fields fields) {
    return fields.text("why").orElse(USUAL_REASON);
  }

  private String sessionOf(long cut) {
    return bench
        .reader()
        .summary(cut)
        .flatMap(c -> c.place())
        .map(CutPlace::session)
        .orElseThrow(() -> new NotAccepted("refused.cut_in_no_session", "cut", cut));
  }

  private String name(long number) {
    return journal()
        .sessionNumbered(number)
        .orElseThrow(() -> new NotAccepted("refused.no_session_number", "n", number));
  }

  private Mending mending() {
    return bench.writer().mending();
  }

  private JournalReader journal() {
    return bench.reader().journal();
  }
}
