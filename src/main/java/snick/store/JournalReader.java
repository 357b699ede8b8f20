package snick.store;

import java.util.List;
import java.util.Optional;
import snick.journal.Blade;
import snick.journal.Entry;
import snick.journal.FilamentLot;
import snick.journal.Ledger;
import snick.journal.Session;
import snick.journal.SessionLog;

/** Reads the journal. */
public final class JournalReader {
  private final Database database;
  private final BladeTable blades;
  private final FilamentLotTable lots;
  private final SessionTable sessions;
  private final StageEntryTable stageEntries;

  JournalReader(Database database) {
    this.database = database;
    blades = new BladeTable(database);
    lots = new FilamentLotTable(database);
    sessions = new SessionTable(database);
    stageEntries = new StageEntryTable(database);
  }

  /** Every blade as it stands, in the order added. */
  public List<Blade> blades() {
    return blades.all().stream().map(Entry::content).toList();
  }

  /** The blade of a label as it stands. */
  public Optional<Blade> blade(String label) {
    return blades.find(label).map(Entry::content);
  }

  /** Every entry ever written about a blade, oldest first. */
  public List<Entry<Blade>> bladeHistory(String label) {
    return blades.history(label);
  }

  /** Every filament lot as it stands, in the order added. */
  public List<FilamentLot> filamentLots() {
    return lots.all().stream().map(Entry::content).toList();
  }

  /** The lot of a name as it stands. */
  public Optional<FilamentLot> filamentLot(String lot) {
    return lots.find(lot).map(Entry::content);
  }

  /** Every entry ever written about a lot, oldest first. */
  public List<Entry<FilamentLot>> filamentLotHistory(String lot) {
    return lots.history(lot);
  }

  /** The newest {@code limit} sessions, newest first. */
  public List<Session> latestSessions(int limit) {
    return sessions.latest(limit);
  }

  /** Sessions with a blade, oldest first. */
  public List<Session> sessionsOfBlade(String label) {
    return sessions.ofBlade(label);
  }

  /** The session of a name as it stands. */
  public Optional<Session> session(String name) {
    return sessions.find(name).map(Entry::content);
  }

  /** Every entry ever written about a session, oldest first. */
  public List<Entry<Session>> sessionHistory(String name) {
    return sessions.history(name);
  }

  /** The session last opened that still runs on a rig, else the one that names no rig. */
  public Optional<Session> runningSession(String deviceId) {
    return sessions.running(deviceId);
  }

  /** A session with all that was noted in it, on one unchanging view of the store. */
  public Optional<SessionLog> log(String sessionName) {
    return database.read(() -> readLog(sessionName));
  }

  /** As {@link #log}, within the caller's transaction. */
  Optional<SessionLog> readLog(String sessionName) {
    return session(sessionName)
        .map(
            session ->
                new SessionLog(
                    session,
                    sessions.stages(sessionName),
                    Ledger.of(stageEntries.ofSession(sessionName)),
                    stageEntries.setAside(sessionName)));
  }
}
