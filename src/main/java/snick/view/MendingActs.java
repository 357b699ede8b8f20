package snick.view;

import java.util.Optional;
import java.util.function.UnaryOperator;
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
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;
import snick.store.JournalReader;
import snick.store.Mending;
import snick.store.record.CutPlace;
import snick.view.bench.Bench;
import snick.view.http.Fields;
import snick.view.http.Request;

/**
 * Mends from the page what went wrong, in any session, open or closed. What was there before stays
 * in the record. Sessions go by their number. Each says what stands now; the board's thread.
 */
final class MendingActs {
  private static final String USUAL_REASON = "mended on the page"; // kept in the record

  private final Bench bench;
  private final Board board;

  MendingActs(Bench bench, Board board) {
    this.bench = bench;
    this.board = board;
  }

  /** Opens a session again that was ended. */
  String reopen(Request asked, Fields fields) {
    mending().reopen(name(asked), why(fields));
    return name(asked);
  }

  /** Gives a session another name. */
  String rename(Request asked, Fields fields) {
    mending().renameSession(name(asked), fields.needed("name"), why(fields));
    return name(asked);
  }

  /** Says that a session was made with another blade, which is known already. */
  String changeBlade(Request asked, Fields fields) {
    Session session = journal().session(name(asked)).orElseThrow();
    Blade blade = journal().bladeMeant(fields.needed("blade"));
    bench.writer().journal().correct(session.withBlade(blade.label()), why(fields));
    return blade.label();
  }

  /** Says with which filament lot a session was made; none: not noted. */
  String changeLot(Request asked, Fields fields) {
    Session session = journal().session(name(asked)).orElseThrow();
    Optional<String> lot =
        fields.text("filament_lot").map(journal()::lotMeant).map(FilamentLot::lot);
    bench.writer().journal().correct(session.withLot(lot), why(fields));
    return lot.orElse("");
  }

  /** Gives a stage another name. */
  String renameStage(Request asked, Fields fields) {
    String after = fields.needed("name").strip();
    mending().renameStage(name(asked), fields.needed("stage"), after, why(fields));
    return after;
  }

  /** Puts what is in one stage into another. */
  String mergeStage(Request asked, Fields fields) {
    String into = fields.needed("into");
    mending().mergeStage(name(asked), fields.needed("stage"), into, why(fields));
    return into;
  }

  /** Moves a cut to a stage, of its own session unless another is named. */
  String moveCut(Request asked, Fields fields) {
    long cut = asked.number();
    String session =
        fields.text("session").map(journal()::sessionMeant).orElseGet(() -> sessionOf(cut));
    return mending().moveCut(cut, session, fields.needed("stage"), why(fields)).content().stage();
  }

  /** Lets a cut count again that was set aside. */
  String countAgain(Request asked, Fields fields) {
    long cut = asked.number();
    SetAside back = SetAside.takenBack(bench.clock().instant(), cut, why(fields));
    bench.writer().journal().setAside(sessionOf(cut), back);
    return Long.toString(cut);
  }

  /** Withdraws a step or an inspection; the undo on the page notes it anew. */
  String withdraw(Request asked, Fields fields) {
    long entry = Request.whole(asked.parts().get(1));
    String session = name(asked);
    StageEntry content = standing(journal().log(session).orElseThrow(), entry);
    Withdrawn withdrawn = new Withdrawn(bench.clock().instant(), content.stage());
    bench.writer().journal().correct(session, entry, withdrawn, why(fields));
    board
        .undo()
        .done(
            Phrase.of("done.withdrawn", "what", told(content)),
            () -> bench.writer().journal().add(session, content));
    return content.stage();
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
  String renameBlade(Fields fields) {
    String label = journal().bladeMeant(fields.needed("blade")).label();
    mending().renameBlade(label, fields.needed("name"), why(fields));
    return fields.needed("name");
  }

  /** Makes two blades one. */
  String mergeBlade(Fields fields) {
    String label = journal().bladeMeant(fields.needed("blade")).label();
    String into = journal().bladeMeant(fields.needed("into")).label();
    mending().mergeBlade(label, into, why(fields));
    return into;
  }

  /** Says by how much the forces of a blade may differ before it matters; nothing: as usual. */
  String margin(Fields fields) {
    return correct(fields, blade -> blade.withMargin(fields.number("margin_gf")));
  }

  /** Says how long the edge of a blade is. */
  String edgeLength(Fields fields) {
    double lengthMm =
        fields
            .number("edge_length_mm")
            .orElseThrow(
                () -> new NotAccepted("refused.missing", "field", Field.called("edge length")));
    return correct(fields, blade -> blade.withEdgeLength(lengthMm));
  }

  /** Says of which steel a blade is, as its owner calls it; nothing: not noted. */
  String steel(Fields fields) {
    return correct(fields, blade -> blade.withSteel(fields.text("steel").orElse("")));
  }

  private String correct(Fields fields, UnaryOperator<Blade> change) {
    Blade blade = journal().bladeMeant(fields.needed("blade"));
    bench.writer().journal().correct(change.apply(blade), why(fields));
    return blade.label();
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

  private String name(Request asked) {
    return journal()
        .sessionNumbered(asked.number())
        .orElseThrow(() -> new NotAccepted("refused.no_session_number", "n", asked.number()));
  }

  private Mending mending() {
    return bench.writer().mending();
  }

  private JournalReader journal() {
    return bench.reader().journal();
  }
}
