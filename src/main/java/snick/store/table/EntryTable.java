package snick.store.table;

import java.time.Instant;
import java.util.OptionalLong;
import snick.journal.Entry;
import snick.store.database.Database;
import snick.store.database.Row;

/** Journal entries, whatever their content, as rows. */
public final class EntryTable {
  /** The columns of {@link #map}, of a table named e. */
  static final String COLUMNS =
      "e.id AS entry_id, e.recorded_utc_ns, e.corrects, e.why AS correction_reason";

  /** True of an entry that none corrects; the placeholder is its id. */
  static final String STANDS = "NOT EXISTS (SELECT 1 FROM entry x WHERE x.corrects = %s)";

  private final Database database;

  public EntryTable(Database database) {
    this.database = database;
  }

  public <T> Entry<T> add(Instant recorded, T content) {
    return Entry.of(insert(recorded, OptionalLong.empty(), ""), recorded, content);
  }

  /** A new entry that came late. */
  public <T> Entry<T> late(Instant recorded, String why, T content) {
    return Entry.late(insert(recorded, OptionalLong.empty(), why), recorded, why, content);
  }

  public <T> Entry<T> correct(Entry<T> earlier, Instant recorded, String why, T content) {
    long id = insert(recorded, OptionalLong.of(earlier.id()), why);
    return Entry.correcting(earlier, id, recorded, why, content);
  }

  private long insert(Instant recorded, OptionalLong corrects, String why) {
    return database
        .query("INSERT INTO entry (recorded_utc_ns, corrects, why) VALUES (?, ?, ?)")
        .with(recorded, corrects, why.strip())
        .insertedId();
  }

  static <T> Entry<T> map(Row row, T content) {
    return new Entry<>(
        row.whole("entry_id"),
        row.instant("recorded_utc_ns"),
        row.optionalWhole("corrects"),
        row.text("correction_reason"),
        content);
  }
}
