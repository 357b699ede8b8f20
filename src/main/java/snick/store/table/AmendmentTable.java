package snick.store.table;

import java.time.Instant;
import java.util.List;
import java.util.OptionalLong;
import snick.journal.Amendment;
import snick.journal.Entry;
import snick.store.database.Database;
import snick.store.database.Row;

/** What was mended in names and ends, as rows. */
public final class AmendmentTable {
  private static final String SELECT =
      "SELECT a.*, "
          + EntryTable.COLUMNS
          + " FROM amendment a JOIN entry e ON e.id = a.entry WHERE a.";

  private final Database database;
  private final EntryTable entries;

  public AmendmentTable(Database database) {
    this.database = database;
    entries = new EntryTable(database);
  }

  public Entry<Amendment> ofBlade(long blade, Instant at, String why, Amendment amendment) {
    return add(OptionalLong.of(blade), OptionalLong.empty(), at, why, amendment);
  }

  public Entry<Amendment> ofSession(long session, Instant at, String why, Amendment amendment) {
    return add(OptionalLong.empty(), OptionalLong.of(session), at, why, amendment);
  }

  private Entry<Amendment> add(
      OptionalLong blade, OptionalLong session, Instant at, String why, Amendment amendment) {
    Entry<Amendment> entry = entries.late(at, why, amendment);
    database
        .query("INSERT INTO amendment VALUES (?, ?, ?, ?, ?, ?)")
        .with(
            entry.id(),
            blade,
            session,
            amendment.kind().word(),
            amendment.before(),
            amendment.after())
        .change();
    return entry;
  }

  public List<Entry<Amendment>> ofBlade(long blade) {
    return of("blade", blade);
  }

  public List<Entry<Amendment>> ofSession(long session) {
    return of("session", session);
  }

  private List<Entry<Amendment>> of(String column, long id) {
    return database
        .query(SELECT + column + " = ? ORDER BY a.entry")
        .with(id)
        .list(AmendmentTable::map);
  }

  private static Entry<Amendment> map(Row row) {
    return EntryTable.map(
        row,
        new Amendment(
            row.word("kind", Amendment.Kind.class), row.text("before"), row.text("after")));
  }
}
