package snick.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import snick.journal.Blade;
import snick.journal.FilamentLot;
import snick.journal.Session;
import snick.json.Json;
import snick.phrase.NotAccepted;
import snick.store.JournalReader;
import snick.store.SessionEvidence;
import snick.store.database.StoreException;
import snick.store.record.CutSelection;
import snick.store.record.CutSummary;
import snick.view.bench.Bench;
import snick.view.bench.BenchJudge;
import snick.view.bench.Preferences;
import snick.view.http.EventHub;
import snick.view.http.HttpAnswer;
import snick.view.http.ServerSentEvent;
import snick.view.http.Turn;

/**
 * The session on the bench, as the store has it. Everything that reads or writes the store for the
 * page runs on one thread here, so that neither a slow disk nor another writer holds up recording
 * or live points.
 */
final class Board {
  private static final long PATIENCE_SECONDS = 15;

  private final Bench bench;
  private final EventHub hub;
  private final ExecutorService thread;
  private final Undo undo = new Undo();
  private final StageVerdicts verdicts;
  private volatile String document = "{}";

  Board(Bench bench, EventHub hub, ExecutorService thread) {
    this.bench = bench;
    this.verdicts = new StageVerdicts(bench.preferences().words());
    this.hub = hub;
    this.thread = thread;
  }

  /** What can be taken back. Board's thread. */
  Undo undo() {
    return undo;
  }

  /** The bench document as last read; any thread. */
  String document() {
    return document;
  }

  /** A cut was committed: tells everyone, then reads the session anew. Any thread. */
  void announced(long cutId) {
    thread.execute(
        () -> {
          bench
              .reader()
              .summary(cutId)
              .ifPresent(
                  cut ->
                      hub.publish(
                          new ServerSentEvent(
                              ServerSentEvent.Kind.CUT, Json.text(CutJson.of(cut)))));
          refresh();
        });
  }

  /** Reads the session anew and tells everyone if something changed. Board's thread. */
  void refresh() {
    String now = Json.text(read());
    if (!now.equals(document)) {
      document = now;
      hub.publish(new ServerSentEvent(ServerSentEvent.Kind.BENCH, now));
    }
  }

  /**
   * Runs {@code act} on the board's thread; then reads the session anew.
   *
   * @throws NotAccepted if the journal does not take it
   * @throws StoreException if the store does not
   */
  HttpAnswer change(Callable<HttpAnswer> act) {
    return run(
        () -> {
          try {
            return act.call();
          } finally {
            refresh();
          }
        });
  }

  /** Runs {@code act} on the board's thread, throwing as {@link #change}. */
  HttpAnswer run(Callable<HttpAnswer> act) {
    return new Turn(thread, PATIENCE_SECONDS).run(act);
  }

  /** The running session on the bench's rigs. Board's thread. */
  Optional<Session> running() {
    List<String> devices = new ArrayList<>();
    bench.state().get().rigs().forEach(rig -> rig.device().ifPresent(devices::add));
    if (devices.isEmpty()) {
      devices.add("");
    }
    return devices.stream()
        .flatMap(device -> bench.reader().journal().runningSession(device).stream())
        .findFirst();
  }

  private Map<String, Object> read() {
    JournalReader journal = bench.reader().journal();
    return Json.object(
        "session", running().map(this::session),
        "undo", undo.last().map(bench.preferences().words()::say),
        "chosen_place_mm", bench.nextSpot().get(),
        "last_cut",
            bench.reader().latest(CutSelection.all(), 1).stream().findFirst().map(CutJson::of),
        "blades", journal.blades().stream().map(Blade::label).toList(),
        "filament_lots", journal.filamentLots().stream().map(this::lot).toList(),
        "latest_session",
            journal.latestSessions(1).stream().map(s -> SessionJson.line(journal, s)).findFirst(),
        "usual", usual());
  }

  private Map<String, Object> session(Session session) {
    List<CutSummary> cuts = new ArrayList<>();
    bench.reader().forEachSummary(CutSelection.all().inSession(session.name()), cuts::add);
    SessionEvidence evidence = SessionEvidence.read(bench.reader(), session.name());
    JournalReader journal = bench.reader().journal();
    return new SessionJson(evidence, cuts, BenchJudge.of(bench, bench.reader(), evidence), verdicts)
        .object(journal.sessionNumber(session.name()));
  }

  private Map<String, Object> lot(FilamentLot lot) {
    return Json.object("name", lot.lot(), "what", bench.preferences().words().say(lot.told()));
  }

  private Map<String, Object> usual() {
    Preferences set = bench.preferences();
    return Json.object(
        "licence", set.licence(),
        "latitude_degrees", set.latitudeDegrees(),
        "height_metres", set.heightMetres());
  }
}
