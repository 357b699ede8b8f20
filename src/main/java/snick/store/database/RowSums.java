package snick.store.database;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.zip.CRC32C;

/**
 * A CRC-32C of every row (RFC 3720, appendix B.4), in table row_sum: what SQLite's own checks let
 * pass, a bit that turned in a figure, is found by it. A sum is made in the transaction that writes
 * its row. Traces have a sum of their own and need none here.
 */
public final class RowSums {
  private static final String TABLE = "row_sum";
  private static final Set<String> NOT_SUMMED = Set.of(TABLE, "cut_trace");

  /** Rows whose sums wait for the end of the transaction at most. */
  private static final int MOST_WAITING = 4_096;

  private static final int PAGE = 1_000;

  private final Database database;
  private final Set<Place> changed = new LinkedHashSet<>();

  private boolean resting;

  private record Place(String table, long row) {}

  private record Sum(long row, long found, Optional<Long> stored) {
    boolean agrees() {
      return stored.filter(sum -> sum == found).isPresent();
    }
  }

  RowSums(Database database) {
    this.database = database;
  }

  /** A row was added or changed, or taken out; called in the middle of a statement. */
  void changed(String table, long row) {
    if (!resting && !NOT_SUMMED.contains(table)) {
      changed.add(new Place(table, row));
    }
  }

  /** Makes no sums any more, but for {@link #rebuild}: rows come with theirs. */
  public void rest() {
    resting = true;
  }

  /** Forgets what was undone. */
  void forget() {
    changed.clear();
  }

  /** Makes the sums of what was changed, if that is much. */
  void writeIfMany() {
    if (changed.size() >= MOST_WAITING) {
      write();
    }
  }

  /** Makes the sums of all that was changed. */
  void write() {
    List<Place> places = List.copyOf(changed);
    changed.clear();
    places.forEach(this::write);
  }

  private void write(Place place) {
    Optional<Long> sum =
        database
            .query("SELECT * FROM \"" + place.table() + "\" WHERE rowid = ?")
            .with(place.row())
            .first(row -> sum(row.all()));
    if (sum.isEmpty()) {
      database
          .query("DELETE FROM row_sum WHERE of_table = ? AND of_row = ?")
          .with(place.table(), place.row())
          .change();
      return;
    }
    database
        .query("INSERT OR REPLACE INTO row_sum (of_table, of_row, crc32c) VALUES (?, ?, ?)")
        .with(place.table(), place.row(), sum.get())
        .change();
  }

  /** Makes every sum anew, as after the tables themselves were. */
  public void rebuild() {
    changed.clear();
    database.query("DELETE FROM row_sum").change();
    for (String table : tables()) {
      forEachPage(table, sums -> sums.forEach(sum -> write(new Place(table, sum.row()))));
    }
  }

  private List<String> tables() {
    List<String> tables =
        new ArrayList<>(
            database
                .query(
                    "SELECT name FROM pragma_table_list WHERE schema = 'main' AND type = 'table'"
                        + " AND wr = 0 AND name NOT LIKE 'sqlite%' AND name NOT GLOB '*[^a-z_]*'"
                        + " ORDER BY name")
                .list(row -> row.text("name")));
    tables.removeAll(NOT_SUMMED);
    return tables;
  }

  /** What is not as it was written; no more tables once there are {@code most}. */
  public List<String> problems(int most) {
    List<String> problems = new ArrayList<>();
    for (String table : tables()) {
      if (problems.size() >= most) {
        break;
      }
      forEachPage(
          table,
          sums ->
              sums.stream()
                  .filter(sum -> !sum.agrees() && problems.size() < most)
                  .forEach(sum -> problems.add(problem(table, sum))));
      database
          .query(
              "SELECT of_row FROM row_sum WHERE of_table = ?"
                  + " AND of_row NOT IN (SELECT rowid FROM \""
                  + table
                  + "\") LIMIT 10")
          .with(table)
          .list(row -> "row " + row.whole("of_row") + " of " + table + " is missing")
          .forEach(problems::add);
    }
    return problems;
  }

  private static String problem(String table, Sum sum) {
    return "row "
        + sum.row()
        + " of "
        + table
        + sum.stored()
            .map(
                stored ->
                    String.format(
                        Locale.ROOT, " has checksum %08x, stored was %08x", sum.found(), stored))
            .orElse(" has no checksum: another program wrote it");
  }

  /** Takes the sums of some rows. */
  @FunctionalInterface
  private interface Sums {
    void accept(List<Sum> sums);
  }

  /** Ends where rows no longer rise, as in a damaged table: it would go round for ever. */
  private void forEachPage(String table, Sums consumer) {
    long before = Long.MIN_VALUE;
    List<Sum> page = after(table, before);
    while (!page.isEmpty()) {
      consumer.accept(page);
      long last = page.get(page.size() - 1).row();
      page = last > before ? after(table, last) : List.of();
      before = last;
    }
  }

  private List<Sum> after(String table, long row) {
    return database
        .query(select(table) + "t.rowid > ? ORDER BY t.rowid LIMIT " + PAGE)
        .with(row)
        .list(RowSums::map);
  }

  private static String select(String table) {
    return "SELECT t.*, t.rowid AS of_row, s.crc32c AS row_crc32c FROM \""
        + table
        + "\" t LEFT JOIN row_sum s ON s.of_table = '"
        + table
        + "' AND s.of_row = t.rowid WHERE ";
  }

  private static Sum map(Row row) {
    List<Object> all = row.all();
    return new Sum(
        row.whole("of_row"),
        sum(all.subList(0, all.size() - 2)),
        row.optionalWhole("row_crc32c").stream().boxed().findFirst());
  }

  /**
   * Refuses rows of a cut, its results and its forces that are not as they were written.
   *
   * @throws StoreException naming the row
   */
  public void requireSound(long cutId) {
    requireSound("cut", "t.id = ?", cutId);
    requireSound("cut_result", "t.cut = ?", cutId);
    requireSound("cut_force", "t.cut = ?", cutId);
  }

  private void requireSound(String table, String condition, long value) {
    database.query(select(table) + condition).with(value).list(RowSums::map).stream()
        .filter(sum -> !sum.agrees())
        .findFirst()
        .ifPresent(
            sum -> {
              throw database.failures().damaged(problem(table, sum));
            });
  }

  private static long sum(List<Object> values) {
    CRC32C crc = new CRC32C();
    values.forEach(value -> add(crc, value));
    return crc.getValue();
  }

  /** Kind, then length or value, then bytes: no two rows of one table give the same. */
  private static void add(CRC32C crc, Object value) {
    if (value == null) {
      crc.update('n');
    } else if (value instanceof Number number) {
      boolean real = number instanceof Double;
      crc.update(real ? 'r' : 'i');
      long bits = real ? Double.doubleToLongBits(number.doubleValue()) : number.longValue();
      crc.update(ByteBuffer.allocate(Long.BYTES).putLong(bits).flip());
    } else {
      byte[] bytes =
          value instanceof byte[] blob ? blob : value.toString().getBytes(StandardCharsets.UTF_8);
      crc.update('t');
      crc.update(ByteBuffer.allocate(Integer.BYTES).putInt(bytes.length).flip());
      crc.update(bytes, 0, bytes.length);
    }
  }
}
