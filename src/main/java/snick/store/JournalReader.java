package snick.store;

import java.util.List;
import java.util.Optional;
import snick.journal.Amendment;
import snick.journal.Blade;
import snick.journal.Entry;
import snick.journal.FilamentLot;
import snick.journal.Ledger;
import snick.journal.Session;
import snick.journal.SessionLog;
import snick.journal.SharpeningStep;
import snick.journal.name.KnownNames;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;
import snick.store.database.Database;

/** Reads the journal. */
public final class JournalReader {
  private final Database database;
  private final Tables tables;

  JournalReader(Database database) {
    this.database = database;
    tables = new Tables(database);
  }

  /** Every blade as it stands, in the order added. */
  public List<Blade> blades() {
    return tables.blades.all().stream().map(Entry::content).toList();
  }

  /** The blade of a label as it stands. */
  public Optional<Blade> blade(String label) {
    return tables.blades.find(label).map(Entry::content);
  }

  /** Every entry ever written about a blade, oldest first. */
  public List<Entry<Blade>> bladeHistory(String label) {
    return tables.blades.history(label);
  }

  /** Every filament lot as it stands, in the order added. */
  public List<FilamentLot> filamentLots() {
    return tables.lots.all().stream().map(Entry::content).toList();
  }

  /** The lot of a name as it stands. */
  public Optional<FilamentLot> filamentLot(String lot) {
    return tables.lots.find(lot).map(Entry::content);
  }

  /** Every entry ever written about a lot, oldest first. */
  public List<Entry<FilamentLot>> filamentLotHistory(String lot) {
    return tables.lots.history(lot);
  }

  /** The newest {@code limit} sessions, newest first. */
  public List<Session> latestSessions(int limit) {
    return tables.sessions.latest(limit, Long.MAX_VALUE, "");
  }

  /**
   * The newest {@code limit} sessions numbered below {@code before}, newest first.
   *
   * @param text only those with this in their name or blade, whatever its case; empty for all
   */
  public List<Session> sessionsBefore(long before, String text, int limit) {
    return tables.sessions.latest(limit, before, text);
  }

  /** Sessions with a blade, oldest first. */
  public List<Session> sessionsOfBlade(String label) {
    return tables.sessions.ofBlade(label);
  }

  /** The session of a name as it stands. */
  public Optional<Session> session(String name) {
    return tables.sessions.find(name).map(Entry::content);
  }

  /** Every entry ever written about a session, oldest first. */
  public List<Entry<Session>> sessionHistory(String name) {
    return tables.sessions.history(name);
  }

  /** The session last opened that still runs on a rig, else the one that names no rig. */
  public Optional<Session> runningSession(String deviceId) {
    return tables.sessions.running(deviceId);
  }

  /**
   * The blade that {@code typed} means: its label, whatever its case, or the beginning of it.
   *
   * @throws NotAccepted if there is none or more than one; the message gives those near
   */
  public Blade bladeMeant(String typed) {
    return blade(typed.strip()).orElseGet(() -> blade(bladeNames().meant(typed)).orElseThrow());
  }

  /** Labels of all blades. */
  public KnownNames bladeNames() {
    return new KnownNames(
        "blade", blades().stream().map(Blade::label).toList(), Phrase.of("see.blade_list"));
  }

  /** The filament lot that {@code typed} means, as {@link #bladeMeant}. */
  public FilamentLot lotMeant(String typed) {
    return filamentLot(typed.strip())
        .orElseGet(() -> filamentLot(lotNames().meant(typed)).orElseThrow());
  }

  /** Names of all filament lots. */
  public KnownNames lotNames() {
    return new KnownNames(
        "filament lot",
        filamentLots().stream().map(FilamentLot::lot).toList(),
        Phrase.of("see.lot_list"));
  }

  /**
   * Name of the session that {@code typed} means: its name, its number, or the beginning of its
   * name.
   *
   * @throws NotAccepted if there is none or more than one; the message gives those near
   */
  public String sessionMeant(String typed) {
    String name = typed.strip();
    return session(name)
        .map(Session::name)
        .or(() -> sessionNumbered(name))
        .orElseGet(() -> sessionNames().meant(name));
  }

  private Optional<String> sessionNumbered(String typed) {
    return typed.matches("#?\\d{1,9}")
        ? sessionNumbered(Long.parseLong(typed.replace("#", "")))
        : Optional.empty();
  }

  /** Name of the session of a short number. */
  public Optional<String> sessionNumbered(long number) {
    return tables.sessions.numbered(number);
  }

  private KnownNames sessionNames() {
    return new KnownNames("session", tables.sessions.names(), Phrase.of("see.session_list"));
  }

  NotAccepted unknownSession(String name) {
    return sessionNames().unknown(name);
  }

  /** The short number of a session, given once and never again. */
  public long sessionNumber(String name) {
    return tables.sessions.id(name);
  }

  /** What was mended in the name and stages of a session, oldest first. */
  public List<Entry<Amendment>> amendmentsOfSession(String name) {
    return tables.amendments.ofSession(tables.sessions.id(name));
  }

  /** What was mended in the label of a blade, oldest first. */
  public List<Entry<Amendment>> amendmentsOfBlade(String label) {
    return tables.amendments.ofBlade(tables.blades.id(label));
  }

  /** The sharpening steps noted last that stand, in any session, newest first. */
  public List<SharpeningStep> latestSteps(int limit) {
    return tables.stageEntries.latestSteps(limit);
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
                    tables.sessions.stages(sessionName),
                    Ledger.of(tables.stageEntries.ofSession(sessionName)),
                    tables.stageEntries.setAside(sessionName)));
  }
}
