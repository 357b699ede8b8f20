package snick.store.table;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import snick.journal.Entry;
import snick.phrase.NotAccepted;
import snick.store.database.Database;
import snick.store.database.Query;
import snick.store.database.Row;

/**
 * Things under a name of their owner's, and the entries of what is noted of them, as rows. The name
 * is the key: a correction keeps it.
 */
public abstract class NamedTable<T> {
  final Database database;
  private final EntryTable entries;
  private final String table;
  private final String key;
  private final String id;
  private final List<String> columns;

  /**
   * Things in {@code table}, their entries in the table of that name with {@code _entry}.
   *
   * @param key column of the name
   * @param id what a row of {@code table} stands for, as an expression of its columns
   * @param columns what is noted, in the order of {@link #noted}
   */
  NamedTable(Database database, String table, String key, String id, List<String> columns) {
    this.database = database;
    entries = new EntryTable(database);
    this.table = table;
    this.key = key;
    this.id = id;
    this.columns = columns;
  }

  public abstract String name(T thing);

  abstract Query noted(T thing, Query query);

  abstract T read(Row row);

  abstract NotAccepted unknown(String name);

  abstract NotAccepted known(String name);

  /**
   * Number of what {@code name} stands for.
   *
   * @throws NotAccepted if there is none
   */
  public long id(String name) {
    return database
        .query(idOfName())
        .with(name)
        .first(row -> row.whole("id"))
        .orElseThrow(() -> unknown(name));
  }

  private String idOfName() {
    return "SELECT " + id + " AS id FROM " + table + " WHERE " + key + " = ?";
  }

  /**
   * Adds it.
   *
   * @throws NotAccepted if there is one of its name
   */
  public Entry<T> add(T thing, Instant recorded) {
    return addNew(thing, recorded).orElseThrow(() -> known(name(thing)));
  }

  /** Adds it; empty if there is one of its name, which is kept. */
  public Optional<Entry<T>> addNew(T thing, Instant recorded) {
    OptionalLong added =
        database
            .query("INSERT INTO " + table + " (" + key + ") VALUES (?) ON CONFLICT DO NOTHING")
            .with(name(thing))
            .insertedIdIfNew();
    return added.isPresent()
        ? Optional.of(insert(added.getAsLong(), entries.add(recorded, thing)))
        : Optional.empty();
  }

  /**
   * Says anew what is noted; what stood before stays in the history.
   *
   * @throws NotAccepted if there is none of its name
   */
  public Entry<T> correct(T thing, String why, Instant recorded) {
    String name = name(thing);
    Entry<T> earlier = find(name).orElseThrow(() -> unknown(name));
    return insert(id(name), entries.correct(earlier, recorded, why, thing));
  }

  private Entry<T> insert(long of, Entry<T> entry) {
    String into = table + "_entry (entry, " + table + ", " + String.join(", ", columns) + ")";
    String values = " VALUES (?, ?" + ", ?".repeat(columns.size()) + ")";
    Query query = database.query("INSERT INTO " + into + values).with(entry.id(), of);
    noted(entry.content(), query).change();
    return entry;
  }

  /** The entry that stands. */
  public Optional<Entry<T>> find(String name) {
    return ofName(" ORDER BY e.id DESC LIMIT 1").with(name).first(this::map);
  }

  /** Every entry, oldest first. */
  public List<Entry<T>> history(String name) {
    return ofName(" ORDER BY e.id").with(name).list(this::map);
  }

  private Query ofName(String order) {
    return database.query(select() + "n.id = (" + idOfName() + ")" + order);
  }

  /** The entries that stand, in the order of what they are of. */
  public List<Entry<T>> all() {
    String ownName = "n.id = (SELECT " + id + " FROM " + table + " WHERE id = n.id) AND ";
    String standing = String.format(EntryTable.STANDS, "e.id");
    return database.query(select() + ownName + standing + " ORDER BY n.id").list(this::map);
  }

  /** Names are few, entries many: CROSS keeps SQLite from walking the entries to find names. */
  private String select() {
    return "SELECT n.*, d.*, "
        + EntryTable.COLUMNS
        + String.format(" FROM %1$s n CROSS JOIN %1$s_entry d ON d.%1$s = n.id", table)
        + " CROSS JOIN entry e ON e.id = d.entry WHERE ";
  }

  private Entry<T> map(Row row) {
    return EntryTable.map(row, read(row));
  }
}
