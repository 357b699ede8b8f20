package snick.view;

import java.time.Instant;
import java.time.LocalDateTime;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.force.budget.Calibration;
import snick.journal.Blade;
import snick.journal.CutPlacement;
import snick.journal.Entry;
import snick.journal.Finding;
import snick.journal.Inspection;
import snick.journal.Inspection.Look;
import snick.journal.Method;
import snick.journal.Photo;
import snick.journal.Place;
import snick.journal.Session;
import snick.journal.Session.Equipment;
import snick.journal.SessionLog;
import snick.journal.SetAside;
import snick.journal.SharpeningStep;
import snick.journal.Side;
import snick.journal.Stage;
import snick.journal.StageEntry;
import snick.journal.Withdrawn;
import snick.journal.name.Field;
import snick.json.Json;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;
import snick.store.JournalWriter;
import snick.view.bench.Bench;
import snick.view.http.Fields;
import snick.view.http.Request;

/**
 * What a person does on the page, written into the journal. A change that names a session or stage
 * is refused if another one runs by now: a page that slept must not write into the wrong stage.
 * Each says what it wrote; the board's thread.
 */
final class JournalActs {
  private static final String UNDONE = "undone on the page";
  private static final String PHOTO_ADDED = "photo added on the page";

  private final Bench bench;
  private final Board board;
  private final RigWorks works;

  JournalActs(Bench bench, Board board, RigWorks works) {
    this.works = works;
    this.bench = bench;
    this.board = board;
  }

  /** Opens a session and begins its first stage; a blade that is not known yet is added. */
  Map<String, Object> openSession(Fields fields) {
    String typed = fields.needed("blade").strip();
    Optional<String> lot = fields.text("filament_lot").map(String::strip);
    OptionalDouble edgeLengthMm = fields.number("edge_length_mm");
    edgeLengthMm.ifPresent(Blade.labelled(typed)::withEdgeLength);
    String stage = fields.text("first_stage").orElse("as found");
    board.running().ifPresent(JournalActs::refuseSecond);
    works.requireDone();
    String blade = bench.reader().journal().bladeNames().same(typed).orElse(typed);
    Session session = session(blade, lot, fields.text("name"));
    journal().start(session, stage, fields.truth("new"));
    works.giveWay();
    edgeLengthMm.ifPresent(mm -> noteLength(blade, mm));
    board.undo().forget();
    return Json.object("session", session.name());
  }

  private void noteLength(String label, double lengthMm) {
    Blade blade = bench.reader().journal().blade(label).orElseThrow();
    Blade measured = blade.withEdgeLength(lengthMm);
    if (!measured.equals(blade)) {
      journal().correct(measured, "edge length noted on the page");
    }
  }

  private static void refuseSecond(Session running) {
    throw new NotAccepted("refused.still_open", "session", running.name());
  }

  private Session session(String blade, Optional<String> lot, Optional<String> name) {
    Instant now = bench.clock().instant();
    return new Session(
        name.orElseGet(
            () -> Session.usualName(blade, LocalDateTime.ofInstant(now, bench.clock().getZone()))),
        blade,
        new Equipment(
            lot,
            bench.state().get().rigs().stream().flatMap(r -> r.device().stream()).findFirst(),
            bench.calibration(0).map(Calibration::id)),
        OptionalDouble.empty(),
        bench.preferences().operator(),
        now,
        Optional.empty());
  }

  /** Ends the running session. */
  Map<String, Object> closeSession(Fields fields) {
    journal().close(runningLog(fields).session().name(), bench.clock().instant());
    return Json.object("closed", true);
  }

  /** Begins the next stage of the open session. */
  Map<String, Object> beginStage(Fields fields) {
    String name = fields.needed("name");
    SessionLog log = runningLog(fields);
    String session = log.session().name();
    Stage stage = journal().begin(session, name, fields.truth("new"));
    bench.nextSpot().set(OptionalDouble.empty());
    board
        .undo()
        .done(
            Phrase.of("done.stage", "stage", stage.name()),
            () -> notBegun(session, stage, runningStage(log)));
    return Json.object("stage", stage.order());
  }

  /** A stage begun by mistake: what it holds so far belongs to the one before. */
  private void notBegun(String session, Stage stage, Stage before) {
    bench
        .writer()
        .mending()
        .mergeStage(session, stage.name(), before.name(), "the stage was begun by mistake");
  }

  /** Notes an inspection in the running stage. */
  Map<String, Object> inspect(Fields fields) {
    Method method = fields.neededWord("method", Method.class);
    Side side = fields.neededWord("side", Side.class);
    Finding finding = fields.neededWord("finding", Finding.class);
    Optional<Place> place = fields.text("place").map(Place::parse);
    SessionLog log = runningLog(fields);
    Inspection inspection =
        new Inspection(
            bench.clock().instant(),
            runningStage(log).name(),
            new Look(method, fields.number("magnification")),
            side,
            place,
            finding,
            fields.text("note").orElse(""));
    long entry = journal().add(log.session().name(), inspection).id();
    board
        .undo()
        .done(
            Phrase.of("done.inspection", "look", inspection.told()),
            () -> withdraw(log, entry, inspection.stage()));
    return Json.object("entry", entry);
  }

  /** Puts a photo to an inspection of any session, open or ended. */
  Map<String, Object> photo(Request asked) {
    Photo.Kind.of(asked.body());
    long number = asked.number();
    long entry = Request.whole(asked.parts().get(1));
    SessionLog log =
        bench
            .reader()
            .journal()
            .sessionNumbered(number)
            .flatMap(bench.reader().journal()::log)
            .orElseThrow(() -> new NotAccepted("refused.no_session_number", "n", number));
    Inspection look = inspection(log, entry);
    Photo photo = bench.writer().photos().keep(asked.body());
    return Json.object(
        "entry",
        journal()
            .correct(log.session().name(), entry, look.with(Optional.of(photo)), PHOTO_ADDED)
            .id());
  }

  private static Inspection inspection(SessionLog log, long entry) {
    return log.entries().standing().stream()
        .filter(e -> e.id() == entry && e.content() instanceof Inspection)
        .map(e -> (Inspection) e.content())
        .findFirst()
        .orElseThrow(() -> new NotAccepted("refused.no_inspection_stands", "entry", entry));
  }

  /** Notes work on the edge: what led to the running stage. */
  Map<String, Object> step(Fields fields) {
    SessionLog log = runningLog(fields);
    String stage = runningStage(log).name();
    SharpeningStep step = StepJson.read(fields, bench.clock().instant(), stage);
    long entry = journal().add(log.session().name(), step).id();
    board
        .undo()
        .done(
            Phrase.of("done.step", "abrasive", step.abrasive()), () -> withdraw(log, entry, stage));
    return Json.object("entry", entry);
  }

  private void withdraw(SessionLog log, long entry, String stage) {
    Withdrawn withdrawn = new Withdrawn(bench.clock().instant(), stage);
    journal().correct(log.session().name(), entry, withdrawn, UNDONE);
  }

  /** Takes back what was last done here. */
  Map<String, Object> undo(Fields fields) {
    return Json.object("undone", bench.preferences().words().say(board.undo().back()));
  }

  /** Says where the next cut is going to be; without a place: not said. */
  Map<String, Object> choosePlace(Fields fields) {
    OptionalDouble millimetres = fields.number("mm");
    millimetres.ifPresent(Place::fromHeel);
    millimetres.ifPresent(this::requireOnEdge);
    bench.nextSpot().set(millimetres);
    return Json.object("chosen_place_mm", millimetres);
  }

  private void requireOnEdge(double placeMm) {
    board
        .running()
        .flatMap(session -> bench.reader().journal().blade(session.blade()))
        .ifPresent(blade -> blade.requireOnEdge(placeMm));
  }

  /** Says where a cut was made, in place of what was said before. */
  Map<String, Object> place(Request asked, Fields fields) {
    long cutId = asked.number();
    OptionalDouble millimetres = fields.number("mm");
    SessionLog log = logOf(cutId);
    String session = log.session().name();
    Entry<StageEntry> entry = log.placement(cutId).orElseThrow();
    CutPlacement moved =
        new CutPlacement(entry.content().at(), entry.content().stage(), cutId, millimetres);
    long now = journal().correct(session, entry.id(), moved, "place noted on the page").id();
    board
        .undo()
        .done(
            Phrase.of("done.place", "n", cutId),
            () -> journal().correct(session, now, entry.content(), UNDONE));
    return Json.object("cut", cutId);
  }

  /** Sets a cut aside. */
  Map<String, Object> setAside(Request asked, Fields fields) {
    long cutId = asked.number();
    String reason = fields.needed("reason");
    String session = logOf(cutId).session().name();
    journal().setAside(session, new SetAside(bench.clock().instant(), cutId, reason));
    board.undo().done(Phrase.of("done.aside", "n", cutId), () -> takeBack(session, cutId));
    return Json.object("cut", cutId);
  }

  private void takeBack(String session, long cutId) {
    journal().setAside(session, SetAside.takenBack(bench.clock().instant(), cutId, UNDONE));
  }

  private SessionLog logOf(long cutId) {
    return bench
        .reader()
        .summary(cutId)
        .flatMap(cut -> cut.place())
        .flatMap(place -> bench.reader().journal().log(place.session()))
        .orElseThrow(() -> new NotAccepted("refused.cut_in_no_session", "cut", cutId));
  }

  private SessionLog runningLog(Fields fields) {
    SessionLog log =
        board
            .running()
            .flatMap(session -> bench.reader().journal().log(session.name()))
            .orElseThrow(() -> new NotAccepted("refused.no_session_open"));
    fields.text("session").ifPresent(name -> requireSame("session", log.session().name(), name));
    fields.text("stage").ifPresent(name -> requireSame("stage", runningStage(log).name(), name));
    return log;
  }

  private static void requireSame(String what, String runs, String meant) {
    if (!runs.equals(meant)) {
      throw new NotAccepted(
          "refused.not_current_any_more", "what", Field.called(what), "meant", meant, "runs", runs);
    }
  }

  private static Stage runningStage(SessionLog log) {
    return log.runningStage().orElseThrow(() -> new NotAccepted("refused.no_current_stage"));
  }

  private JournalWriter journal() {
    return bench.writer().journal();
  }
}
