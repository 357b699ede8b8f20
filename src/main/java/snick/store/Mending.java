package snick.store;

import java.time.Clock;
import java.time.Instant;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.journal.Amendment;
import snick.journal.Blade;
import snick.journal.CutPlacement;
import snick.journal.Entry;
import snick.journal.Session;
import snick.journal.SessionLog;
import snick.journal.Stage;
import snick.journal.StageEntry;
import snick.journal.Withdrawn;
import snick.phrase.NotAccepted;
import snick.store.database.Database;
import snick.store.database.StoreException;
import snick.store.record.CutPlace;
import snick.store.record.CutSummary;

/**
 * Mends what went into the journal under a wrong name or in a wrong place. Every method is one
 * transaction; on {@link NotAccepted} or {@link StoreException} nothing has changed. What was there
 * before stays in the record, with the reason: 1 to 4000 characters.
 */
public final class Mending {
  private final Database database;
  private final Tables tables;
  private final Clock clock;
  private final JournalReader reader;

  Mending(Database database, Clock clock) {
    this.database = database;
    tables = new Tables(database);
    this.clock = clock;
    reader = new JournalReader(database);
  }

  /** Gives a blade another label. */
  public Entry<Amendment> renameBlade(String label, String newLabel, String why) {
    String after = Blade.labelled(newLabel).label();
    return database.write(
        () -> {
          long id = tables.blades.id(label);
          tables.blades.rename(label, after);
          return tables.amendments.ofBlade(
              id, clock.instant(), why, new Amendment(Amendment.Kind.BLADE_RENAMED, label, after));
        });
  }

  /** Makes two blades one: the sessions of the first become those of the second. */
  public Entry<Amendment> mergeBlade(String label, String into, String why) {
    return database.write(
        () -> {
          if (tables.blades.id(label) == tables.blades.id(into)) {
            throw new NotAccepted("refused.blade_into_itself", "blade", label);
          }
          tables.blades.merge(label, into);
          return tables.amendments.ofBlade(
              tables.blades.id(into),
              clock.instant(),
              why,
              new Amendment(Amendment.Kind.BLADE_MERGED, label, into));
        });
  }

  /** Gives a session another name. */
  public Entry<Amendment> renameSession(String name, String newName, String why) {
    return database.write(
        () -> {
          String after = log(name).session().withName(newName).name();
          tables.sessions.rename(name, after);
          return amend(after, why, new Amendment(Amendment.Kind.SESSION_RENAMED, name, after));
        });
  }

  /**
   * Opens a session again that was closed.
   *
   * @throws NotAccepted also if another is open on its rig: cuts land in one alone
   */
  public Entry<Amendment> reopen(String name, String why) {
    return database.write(
        () -> {
          Session session = log(name).session();
          String closed = session.closed().map(Instant::toString).orElse("");
          requireAlone(session.reopened());
          tables.sessions.reopen(name);
          return amend(name, why, new Amendment(Amendment.Kind.SESSION_REOPENED, closed, ""));
        });
  }

  private void requireAlone(Session session) {
    tables.sessions.open(session.equipment().rig()).stream()
        .findFirst()
        .ifPresent(
            other -> {
              throw new NotAccepted("refused.other_session_open", "session", other);
            });
  }

  /** Gives a stage of a session another name. */
  public Entry<Amendment> renameStage(String session, String stage, String newName, String why) {
    return database.write(
        () -> {
          SessionLog log = log(session);
          Stage before = log.stage(stage);
          Stage after = log.rename(before, newName).stages().get(before.order() - 1);
          tables.sessions.renameStage(session, before, after.name());
          return amend(
              session,
              why,
              new Amendment(Amendment.Kind.STAGE_RENAMED, before.name(), after.name()));
        });
  }

  /** Makes two stages of a session one: what is in the first belongs to the second. */
  public Entry<Amendment> mergeStage(String session, String stage, String into, String why) {
    return database.write(
        () -> {
          SessionLog log = log(session);
          Stage from = log.stage(stage);
          Stage kept = log.stage(into);
          log.merge(from, kept);
          tables.sessions.mergeStage(session, from, kept);
          return amend(
              session, why, new Amendment(Amendment.Kind.STAGE_MERGED, from.name(), kept.name()));
        });
  }

  private Entry<Amendment> amend(String session, String why, Amendment amendment) {
    return tables.amendments.ofSession(
        tables.sessions.id(session), clock.instant(), why, amendment);
  }

  /**
   * Moves a cut to a stage, of its own session or of another, open or closed. In the session that
   * it leaves its place is withdrawn.
   *
   * @param stage as {@link SessionLog#stage} takes it
   */
  public Entry<StageEntry> moveCut(long cutId, String session, String stage, String why) {
    return database.write(
        () -> {
          SessionLog log = log(session);
          CutSummary cut =
              tables
                  .cuts
                  .summary(cutId)
                  .orElseThrow(() -> new NotAccepted("refused.cut_not_in_store", "cut", cutId));
          Optional<String> before = cut.place().map(CutPlace::session);
          OptionalDouble placeMm =
              cut.place().map(CutPlace::placeMm).orElse(OptionalDouble.empty());
          CutPlacement now =
              new CutPlacement(
                  log.session().during(cut.occurredAt()), log.stage(stage).name(), cutId, placeMm);
          if (before.isPresent() && before.get().equals(session)) {
            return within(log, now, why);
          }
          before.ifPresent(name -> withdraw(log(name), cutId, why));
          return note(log, tables.entries.late(clock.instant(), why, now));
        });
  }

  private Entry<StageEntry> within(SessionLog log, CutPlacement now, String why) {
    Entry<StageEntry> earlier = log.placement(now.cut()).orElseThrow();
    if (earlier.content().equals(now)) {
      throw new NotAccepted("refused.cut_is_there_already", "cut", now.cut(), "stage", now.stage());
    }
    return note(log, tables.entries.correct(earlier, clock.instant(), why, now));
  }

  private void withdraw(SessionLog log, long cutId, String why) {
    Entry<StageEntry> earlier = log.placement(cutId).orElseThrow();
    Withdrawn gone = new Withdrawn(earlier.content().at(), earlier.content().stage());
    note(log, tables.entries.correct(earlier, clock.instant(), why, gone));
  }

  private Entry<StageEntry> note(SessionLog log, Entry<StageEntry> entry) {
    log.add(entry);
    tables.stageEntries.add(log.session().name(), log.stage(entry.content().stage()), entry);
    return entry;
  }

  private SessionLog log(String session) {
    return reader.readLog(session).orElseThrow(() -> reader.unknownSession(session));
  }
}
