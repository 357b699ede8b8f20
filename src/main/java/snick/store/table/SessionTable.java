package snick.store.table;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import snick.journal.Entry;
import snick.journal.Session;
import snick.journal.Session.Equipment;
import snick.journal.Stage;
import snick.phrase.NotAccepted;
import snick.store.database.Database;
import snick.store.database.Row;

/** Sessions and their stages as rows. A session's name is its key: a correction keeps it. */
public final class SessionTable {
  private static final String SELECT =
      "SELECT s.name, coalesce(m.label, b.label) AS label, l.lot, d.rig, d.calibration,"
          + " d.room_celsius, d.operator, d.opened_utc_ns, s.closed_utc_ns, "
          + EntryTable.COLUMNS
          + " FROM session s JOIN session_entry d ON d.session = s.id"
          + " JOIN entry e ON e.id = d.entry JOIN blade b ON b.id = d.blade"
          + " LEFT JOIN blade m ON m.id = b.merged_into"
          + " LEFT JOIN filament_lot l ON l.id = d.filament_lot ";

  /** Whether the blade of session h has the text ?2 in its label. */
  private static final String BLADE_HAS =
      "EXISTS (SELECT 1 FROM session_entry y JOIN blade z ON z.id = y.blade"
          + " LEFT JOIN blade w ON w.id = z.merged_into WHERE y.session = h.id AND "
          + String.format(EntryTable.STANDS, "y.entry")
          + " AND instr(lower(coalesce(w.label, z.label)), lower(?2)) > 0)";

  private static final String STANDS = String.format(EntryTable.STANDS, "e.id");

  private final Database database;
  private final EntryTable entries;
  private final BladeTable blades;
  private final FilamentLotTable lots;

  public SessionTable(Database database) {
    this.database = database;
    entries = new EntryTable(database);
    blades = new BladeTable(database);
    lots = new FilamentLotTable(database);
  }

  public long id(String name) {
    return database
        .query("SELECT id FROM session WHERE name = ?")
        .with(name)
        .first(row -> row.whole("id"))
        .orElseThrow(() -> unknown(name));
  }

  private static NotAccepted unknown(String name) {
    return new NotAccepted("refused.no_session", "session", name);
  }

  public Entry<Session> open(Session session, Instant recorded) {
    if (find(session.name()).isPresent()) {
      throw new NotAccepted("refused.session_exists", "session", session.name());
    }
    database
        .query("INSERT INTO session (name, closed_utc_ns) VALUES (?, ?)")
        .with(session.name(), session.closed())
        .change();
    return insert(entries.add(recorded, session));
  }

  /** The end of a session is not corrected: it stays as it is. */
  public Entry<Session> correct(Session session, String why, Instant recorded) {
    Entry<Session> earlier = standing(session.name());
    Session kept = session.closed(earlier.content().closed());
    return insert(entries.correct(earlier, recorded, why, kept));
  }

  private Entry<Session> insert(Entry<Session> entry) {
    Session session = entry.content();
    Optional<Long> lot = session.equipment().filamentLot().map(lots::id);
    database
        .query("INSERT INTO session_entry VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)")
        .with(
            entry.id(),
            id(session.name()),
            blades.id(session.blade()),
            lot,
            session.equipment().rig(),
            session.equipment().calibration(),
            session.roomCelsius(),
            session.operator(),
            session.opened())
        .change();
    return entry;
  }

  public Session close(String name, Instant at) {
    Session closed = standing(name).content().closedAt(at);
    database.query("UPDATE session SET closed_utc_ns = ? WHERE name = ?").with(at, name).change();
    return closed;
  }

  public void begin(String sessionName, Stage stage) {
    database
        .query("INSERT INTO stage (session, position, name) VALUES (?, ?, ?)")
        .with(id(sessionName), stage.order(), stage.name())
        .change();
  }

  /** Names of one's own sessions that are open with this rig noted, or with none. */
  public List<String> open(Optional<String> rig) {
    return database
        .query(
            "SELECT s.name FROM session s JOIN session_entry d ON d.session = s.id"
                + " WHERE s.closed_utc_ns IS NULL AND d.rig IS ?"
                + " AND s.id NOT IN (SELECT session FROM session_origin) AND "
                + String.format(EntryTable.STANDS, "d.entry"))
        .with(rig)
        .list(row -> row.text("name"));
  }

  public void rename(String name, String newName) {
    if (find(newName).isPresent()) {
      throw new NotAccepted("refused.session_exists", "session", newName);
    }
    database.query("UPDATE session SET name = ? WHERE name = ?").with(newName, name).change();
  }

  public void reopen(String name) {
    database.query("UPDATE session SET closed_utc_ns = NULL WHERE name = ?").with(name).change();
  }

  public void renameStage(String sessionName, Stage stage, String newName) {
    database
        .query("UPDATE stage SET name = ? WHERE session = ? AND position = ?")
        .with(newName, id(sessionName), stage.order())
        .change();
  }

  /** What is in {@code from} is read as in {@code into} from now on; those after it move up. */
  public void mergeStage(String sessionName, Stage from, Stage into) {
    long session = id(sessionName);
    long gone = stageId(session, from);
    database
        .query("UPDATE stage SET merged_into = ?1 WHERE id = ?2 OR merged_into = ?2")
        .with(stageId(session, into), gone)
        .change();
    database.query("UPDATE stage SET position = -id WHERE id = ?").with(gone).change();
    for (int later = from.order() + 1; isThere(session, later); later++) {
      database
          .query("UPDATE stage SET position = position - 1 WHERE session = ? AND position = ?")
          .with(session, later)
          .change();
    }
  }

  private boolean isThere(long session, int position) {
    return database
        .query("SELECT 1 FROM stage WHERE session = ? AND position = ?")
        .with(session, position)
        .any();
  }

  private long stageId(long session, Stage stage) {
    return database
        .query("SELECT id FROM stage WHERE session = ? AND position = ?")
        .with(session, stage.order())
        .first(row -> row.whole("id"))
        .orElseThrow();
  }

  public List<String> names() {
    return database
        .query("SELECT name FROM session ORDER BY id DESC")
        .list(row -> row.text("name"));
  }

  public Optional<String> numbered(long number) {
    return database
        .query("SELECT name FROM session WHERE id = ?")
        .with(number)
        .first(row -> row.text("name"));
  }

  private Entry<Session> standing(String name) {
    return find(name).orElseThrow(() -> unknown(name));
  }

  /** The entry of a session that stands. */
  public Optional<Entry<Session>> find(String name) {
    return database
        .query(SELECT + "WHERE s.name = ? ORDER BY e.id DESC LIMIT 1")
        .with(name)
        .first(SessionTable::map);
  }

  public List<Entry<Session>> history(String name) {
    return database
        .query(SELECT + "WHERE s.name = ? ORDER BY e.id")
        .with(name)
        .list(SessionTable::map);
  }

  /**
   * The newest {@code limit} sessions, newest first.
   *
   * @param before only those numbered lower
   * @param text only those with this in their name or blade, whatever its case
   */
  public List<Session> latest(int limit, long before, String text) {
    return database
        .query(
            SELECT
                + "WHERE s.id IN (SELECT h.id FROM session h WHERE h.id < ?1"
                + " AND (?2 = '' OR instr(lower(h.name), lower(?2)) > 0 OR "
                + BLADE_HAS
                + ") ORDER BY h.id DESC LIMIT ?3) AND "
                + STANDS
                + " ORDER BY s.id DESC")
        .with(before, text, limit)
        .list(row -> map(row).content());
  }

  /** Sessions with a blade, oldest first. */
  public List<Session> ofBlade(String label) {
    return database
        .query(SELECT + "WHERE d.blade IN " + BladeTable.IDS + " AND " + STANDS + " ORDER BY s.id")
        .with(label)
        .list(row -> map(row).content());
  }

  /** One's own session last opened that still runs: on this rig, else on none in particular. */
  public Optional<Session> running(String deviceId) {
    return database
        .query(
            SELECT
                + "WHERE s.id IN (SELECT id FROM session WHERE closed_utc_ns IS NULL)"
                + " AND (d.rig = ? OR d.rig IS NULL)"
                + " AND s.id NOT IN (SELECT session FROM session_origin) AND "
                + STANDS
                + " ORDER BY d.rig IS NULL, d.opened_utc_ns DESC, s.id DESC LIMIT 1")
        .with(deviceId)
        .first(row -> map(row).content());
  }

  public List<Stage> stages(String sessionName) {
    return database
        .query(
            "SELECT t.position, t.name FROM stage t WHERE t.session ="
                + " (SELECT id FROM session WHERE name = ?) AND t.merged_into IS NULL"
                + " ORDER BY t.position")
        .with(sessionName)
        .list(row -> new Stage(row.integer("position"), row.text("name")));
  }

  public Optional<Stage> runningStage(String sessionName) {
    List<Stage> all = stages(sessionName);
    return all.stream().skip(Math.max(0, all.size() - 1)).findFirst();
  }

  private static Entry<Session> map(Row row) {
    return EntryTable.map(
        row,
        new Session(
            row.text("name"),
            row.text("label"),
            new Equipment(
                row.optionalText("lot"), row.optionalText("rig"), row.optionalText("calibration")),
            row.optionalReal("room_celsius"),
            row.optionalText("operator"),
            row.instant("opened_utc_ns"),
            row.optionalInstant("closed_utc_ns")));
  }
}
