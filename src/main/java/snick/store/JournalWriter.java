package snick.store;

import java.time.Clock;
import java.time.Instant;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Supplier;
import snick.journal.Blade;
import snick.journal.CutPlacement;
import snick.journal.Entry;
import snick.journal.FilamentLot;
import snick.journal.Ledger;
import snick.journal.Session;
import snick.journal.SessionLog;
import snick.journal.SetAside;
import snick.journal.Stage;
import snick.journal.StageEntry;
import snick.journal.name.SlipOfName;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;
import snick.store.database.Database;
import snick.store.database.StoreException;
import snick.store.record.CutSummary;

/**
 * Writes the journal. Every method is one transaction; on {@link NotAccepted} or {@link
 * StoreException} nothing has changed. Corrections keep the old entry.
 */
public final class JournalWriter {
  private final Database database;
  private final Tables tables;
  private final Clock clock;
  private final JournalReader reader;

  JournalWriter(Database database, Clock clock) {
    this.database = database;
    tables = new Tables(database);
    this.clock = clock;
    reader = new JournalReader(database);
  }

  /** Adds a blade whose label is new. */
  public Entry<Blade> add(Blade blade) {
    return database.write(() -> tables.blades.add(blade, clock.instant()));
  }

  /** Replaces what is noted of the blade of this label. */
  public Entry<Blade> correct(Blade blade, String why) {
    return database.write(() -> tables.blades.correct(blade, why, clock.instant()));
  }

  /** Adds a filament lot whose name is new. */
  public Entry<FilamentLot> add(FilamentLot lot) {
    return database.write(() -> tables.lots.add(lot, clock.instant()));
  }

  /** Replaces what is noted of the lot of this name. */
  public Entry<FilamentLot> correct(FilamentLot lot, String why) {
    return database.write(() -> tables.lots.correct(lot, why, clock.instant()));
  }

  /**
   * Opens a session whose name is new and begins its first stage. A blade that is not known yet is
   * added.
   *
   * @param newBlade whether a blade is to be added even if its label is nearly one that is there
   * @return whether the blade was added
   * @throws SlipOfName if its label is nearly one that is there
   */
  public boolean start(Session session, String stageName, boolean newBlade) {
    return database.write(
        () -> {
          boolean unknown = tables.blades.find(session.blade()).isEmpty();
          if (unknown && !newBlade) {
            reader.bladeNames().requireNoSlip(session.blade());
          }
          if (unknown) {
            tables.blades.add(Blade.labelled(session.blade()), clock.instant());
          }
          tables.sessions.open(session, clock.instant());
          tables.sessions.begin(session.name(), new Stage(1, stageName));
          return unknown;
        });
  }

  /** Opens a session whose name is new; its blade and lot must be in the journal. */
  public Entry<Session> open(Session session) {
    return database.write(() -> tables.sessions.open(session, clock.instant()));
  }

  /** Replaces what is noted of the session of this name, its end excepted. */
  public Entry<Session> correct(Session session, String why) {
    return database.write(() -> tables.sessions.correct(session, why, clock.instant()));
  }

  /** Ends a session. */
  public Session close(String sessionName, Instant at) {
    return database.write(() -> tables.sessions.close(sessionName, at));
  }

  /** Begins the next stage of a session. */
  public Stage begin(String sessionName, String stageName) {
    return begin(sessionName, stageName, true);
  }

  /**
   * Begins the next stage of a session.
   *
   * @param meantNew whether even if its name is nearly that of an earlier one
   * @throws SlipOfName if it is
   */
  public Stage begin(String sessionName, String stageName, boolean meantNew) {
    return database.write(
        () -> {
          SessionLog log = log(sessionName);
          Stage stage = log.begin(stageName).runningStage().orElseThrow();
          if (!meantNew) {
            log.requireNoSlip(stageName);
          }
          tables.sessions.begin(sessionName, stage);
          return stage;
        });
  }

  /** Notes a step, an inspection or the place of a cut in a session. */
  public Entry<StageEntry> add(String sessionName, StageEntry content) {
    return database.write(
        () -> {
          requirePlaceable(content, Optional.empty());
          requireOnEdge(sessionName, content);
          return note(sessionName, () -> tables.entries.add(clock.instant(), content));
        });
  }

  /**
   * Replaces an entry of a session.
   *
   * @param entryId an entry that stands
   * @param why reason, 1 to 4000 characters
   */
  public Entry<StageEntry> correct(
      String sessionName, long entryId, StageEntry content, String why) {
    return database.write(
        () -> {
          Entry<StageEntry> earlier = standing(sessionName, entryId);
          requirePlaceable(content, Optional.of(earlier.content()));
          requireOnEdge(sessionName, content);
          return note(
              sessionName, () -> tables.entries.correct(earlier, clock.instant(), why, content));
        });
  }

  private Entry<StageEntry> note(String sessionName, Supplier<Entry<StageEntry>> maker) {
    SessionLog log = log(sessionName);
    Entry<StageEntry> entry = maker.get();
    log.add(entry);
    tables.stageEntries.add(sessionName, log.stage(entry.content().stage()), entry);
    return entry;
  }

  private Entry<StageEntry> standing(String sessionName, long entryId) {
    Ledger<StageEntry> ledger = log(sessionName).entries();
    ledger
        .correctionOf(entryId)
        .ifPresent(
            later -> {
              throw new NotAccepted(
                  "refused.corrected_already", "entry", entryId, "later", later.id());
            });
    return ledger.standing().stream()
        .filter(entry -> entry.id() == entryId)
        .findFirst()
        .orElseThrow(
            () ->
                new NotAccepted(
                    "refused.entry_not_in_session", "entry", entryId, "session", sessionName));
  }

  private void requireOnEdge(String sessionName, StageEntry content) {
    content
        .placeMm()
        .ifPresent(
            mm ->
                tables
                    .blades
                    .find(log(sessionName).session().blade())
                    .ifPresent(blade -> blade.content().requireOnEdge(mm)));
  }

  /** A cut belongs to one stage at most. */
  private void requirePlaceable(StageEntry content, Optional<StageEntry> earlier) {
    if (!(content instanceof CutPlacement placement)) {
      return;
    }
    boolean moved =
        earlier.isPresent()
            && earlier.get() instanceof CutPlacement before
            && before.cut() == placement.cut();
    CutSummary cut =
        tables
            .cuts
            .summary(placement.cut())
            .orElseThrow(() -> new NotAccepted("refused.cut_not_in_store", "cut", placement.cut()));
    if (!moved && cut.place().isPresent()) {
      throw new NotAccepted(
          Phrase.of("refused.cut_is_in_stage")
              .with("cut", cut.id())
              .with("session", cut.place().get().session())
              .with("stage", cut.place().get().stage().name()));
    }
  }

  /** Sets a cut of a session aside: it stays in the record and no longer counts. */
  public void setAside(String sessionName, SetAside act) {
    database.change(
        () -> {
          log(sessionName).setAside(act);
          tables.stageEntries.add(act);
        });
  }

  private SessionLog log(String sessionName) {
    return reader.readLog(sessionName).orElseThrow(() -> reader.unknownSession(sessionName));
  }

  /** Lands a cut in the stage that runs on a rig, within the caller's transaction. */
  void land(String deviceId, long cutId, Instant occurredAt, OptionalDouble placeMm) {
    tables
        .sessions
        .running(deviceId)
        .ifPresent(session -> land(session, cutId, occurredAt, placeMm));
  }

  private void land(Session session, long cutId, Instant occurredAt, OptionalDouble placeMm) {
    Instant at = occurredAt.isBefore(session.opened()) ? session.opened() : occurredAt;
    tables
        .sessions
        .runningStage(session.name())
        .ifPresent(
            stage ->
                tables.stageEntries.add(
                    session.name(),
                    stage,
                    tables.entries.add(
                        clock.instant(), new CutPlacement(at, stage.name(), cutId, placeMm))));
  }
}
