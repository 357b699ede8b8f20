package snick.store.care;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import java.util.Set;
import snick.store.database.Database;
import snick.store.database.Migrations;
import snick.store.database.StoreException;
import snick.store.database.StoreException.Trouble;

/**
 * Copies every readable row of a damaged store into a new one: by ranges of row ids, halved where a
 * page between cannot be read, so that an unreadable page costs its own rows alone.
 */
public final class Salvage {
  private static final String DAMAGED = "damaged";

  /** What hinders writing the new store, however sound the damaged one's pages are. */
  private static final Set<Trouble> NOT_THE_PAGES =
      EnumSet.of(Trouble.FULL, Trouble.NOT_WRITTEN, Trouble.READ_ONLY);

  /** A row id beyond the last: how much farther than the largest readable one it may lie. */
  private static final int MARGIN = 4;

  /** Rows said to be changed, of each kind. */
  private static final int MOST_CHANGED = 100;

  private final Database database;
  private final Map<String, Long> rowsKept = new LinkedHashMap<>();
  private final List<String> lost = new ArrayList<>();

  private Salvage(Database database) {
    this.database = database;
  }

  /**
   * Copies what can be read.
   *
   * @param damaged the file; it is read only
   * @param fresh an empty file that nobody else uses; what is written to it is not yet on disk
   */
  public static SalvageReport copy(Path damaged, Path fresh) {
    int version;
    try {
      version = version(damaged);
    } catch (StoreException e) {
      if (e.trouble() != Trouble.DAMAGED) {
        throw e;
      }
      return withNewHead(damaged, fresh, e);
    }
    return copy(version, damaged, fresh);
  }

  private static int version(Path file) {
    try (Database source = Database.reader(file)) {
      return new Migrations(source).check();
    }
  }

  /** Another try where nothing at all can be read: the header may be all that is destroyed. */
  private static SalvageReport withNewHead(Path damaged, Path fresh, StoreException unreadable) {
    try (NewHead mended = NewHead.on(damaged, fresh)) {
      return copy(version(mended.file()), mended.file(), fresh);
    } catch (IOException | StoreException e) {
      unreadable.addSuppressed(e);
      throw unreadable;
    }
  }

  private static SalvageReport copy(int version, Path damaged, Path fresh) {
    try (Database target = Database.writer(fresh)) {
      new Migrations(target).runTo(version);
      target.sums().rest();
      target.execute("PRAGMA synchronous = OFF; PRAGMA journal_mode = MEMORY");
      target.execute("PRAGMA foreign_keys = OFF");
      Salvage salvage = new Salvage(target);
      target.query("ATTACH ? AS " + DAMAGED).with(damaged.toUri() + "?mode=ro").change();
      salvage.copyTables();
      target.execute("DETACH " + DAMAGED);
      if (salvage.rowsKept.getOrDefault("row_sum", 0L) > 0) {
        salvage.lost.addAll(target.sums().problems(MOST_CHANGED));
      }
      new Orphans(target, salvage.lost).mend();
      target.change(target.sums()::rebuild);
      return new SalvageReport(salvage.rowsKept, salvage.lost);
    }
  }

  /** Each step commits by itself: a transaction that met an unreadable page cannot. */
  private void copyTables() {
    List<String> tables =
        database
            .query("SELECT name FROM main.sqlite_schema WHERE type = 'table' ORDER BY rowid")
            .list(row -> row.text("name"));
    long last = lastRow(tables);
    for (String table : tables) {
      rowsKept.put(table, isWithoutRowid(table) ? copyWhole(table) : copy(table, 1, last));
    }
  }

  private boolean isWithoutRowid(String table) {
    return database
        .query("SELECT 1 FROM pragma_table_list WHERE schema = 'main' AND name = ? AND wr = 1")
        .with(table)
        .any();
  }

  private long lastRow(List<String> tables) {
    long largest = 1;
    for (String table : tables) {
      if (!isWithoutRowid(table)) {
        largest = Math.max(largest, largestReadable(table).orElse(1));
      }
    }
    return MARGIN * largest;
  }

  private OptionalLong largestReadable(String table) {
    try {
      return database
          .query("SELECT max(rowid) AS id FROM " + DAMAGED + "." + table)
          .first(row -> row.optionalWhole("id"))
          .orElse(OptionalLong.empty());
    } catch (StoreException unreadable) {
      return OptionalLong.empty();
    }
  }

  private long copyWhole(String table) {
    try {
      return database
          .query("INSERT INTO main." + table + " SELECT * FROM " + DAMAGED + "." + table)
          .change();
    } catch (StoreException e) {
      requireTarget(e);
      lost.add("table " + table + ": " + e.getMessage());
      return 0;
    }
  }

  private long copy(String table, long first, long last) {
    try {
      return database
          .query(
              "INSERT INTO main."
                  + table
                  + " SELECT * FROM "
                  + DAMAGED
                  + "."
                  + table
                  + " WHERE rowid BETWEEN ? AND ?")
          .with(first, last)
          .change();
    } catch (StoreException e) {
      return halve(table, first, last, e);
    }
  }

  private long halve(String table, long first, long last, StoreException why) {
    requireTarget(why);
    if (first == last) {
      note(table, first);
      return 0;
    }
    long middle = first + (last - first) / 2;
    return copy(table, first, middle) + copy(table, middle + 1, last);
  }

  private static void requireTarget(StoreException why) {
    if (NOT_THE_PAGES.contains(why.trouble())) {
      throw why;
    }
  }

  private void note(String table, long row) {
    String prefix = "table " + table + ": unreadable or absent from row ";
    int end = lost.size() - 1;
    boolean goesOn = end >= 0 && lost.get(end).startsWith(prefix);
    String from = goesOn ? lost.get(end).substring(prefix.length()).split(" ", 2)[0] : "" + row;
    if (goesOn) {
      lost.remove(end);
    }
    lost.add(prefix + from + " to " + row);
  }
}
