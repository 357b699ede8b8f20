package snick.store;

import java.util.List;

/**
 * The order of cuts by time. Table cut_time holds all but the newest: those of a block of ids come
 * in together with its last cut, so that storing one seldom writes to it. The rest, fewer than a
 * block, is read from cut.
 */
final class TimeOrder {
  /** Ids of a block; the scripts of {@link Migrations} know it too. */
  private static final int BLOCK = 64;

  /** The last id in cut_time. */
  private static final String LAST_IN = "(SELECT max(id) FROM cut) / " + BLOCK + " * " + BLOCK;

  private final Database database;

  TimeOrder(Database database) {
    this.database = database;
  }

  /** Brings in the block that ends with a cut just added, if one does. */
  void added(long id) {
    if (id % BLOCK == 0) {
      database
          .query(
              "INSERT INTO cut_time SELECT occurred_at_utc_ns, id FROM cut"
                  + " WHERE id > ? AND id <= ?")
          .whole(id - BLOCK)
          .whole(id)
          .change();
    }
  }

  /** Makes cut_time anew of what is in cut. */
  void rebuild() {
    database.query("DELETE FROM cut_time").change();
    database
        .query("INSERT INTO cut_time SELECT occurred_at_utc_ns, id FROM cut WHERE id <= " + LAST_IN)
        .change();
  }

  /**
   * A query over all cuts that meet {@code condition}, which is bound twice: {@code columns} of
   * tables c (cut) and t (its time, occurred_at_utc_ns, and id).
   */
  static String each(String columns, Condition condition) {
    String select = "SELECT " + columns + " FROM ";
    return select
        + "cut_time t CROSS JOIN cut c ON c.id = t.id "
        + condition.sql()
        + " UNION ALL "
        + select
        + "cut c CROSS JOIN cut t ON t.id = c.id "
        + condition.sql()
        + " AND c.id > "
        + LAST_IN;
  }

  /** What is wrong with cut_time. */
  List<String> problems() {
    return database
        .query(
            "SELECT 1 WHERE (SELECT count(*) FROM cut_time) <> (SELECT count(*) FROM cut WHERE id <= "
                + LAST_IN
                + ") OR EXISTS (SELECT 1 FROM cut_time t LEFT JOIN cut c"
                + " ON c.id = t.id AND c.occurred_at_utc_ns = t.occurred_at_utc_ns"
                + " WHERE c.id IS NULL OR c.id > "
                + LAST_IN
                + ")")
        .list(row -> "cut_time is not the order of cuts by time");
  }
}
