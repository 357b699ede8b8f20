package snick.store.table;

import java.util.ArrayList;
import java.util.List;
import snick.store.database.Query;
import snick.store.database.UtcNanos;
import snick.store.record.CutSelection;

/** A WHERE clause on a table named c (cut) that grows, and its parameters. */
final class WhereClause {
  private static final String BY_TIME = " ORDER BY c.occurred_at_utc_ns DESC, c.id DESC";

  /** The unary plus keeps SQLite from walking all cuts by time to find the few of a session. */
  private static final String FEW_BY_TIME = " ORDER BY +c.occurred_at_utc_ns DESC, +c.id DESC";

  private static final String PLACED =
      "c.id IN (SELECT p.cut FROM session s JOIN stage t ON t.session = s.id"
          + " JOIN cut_placement p ON p.stage = t.id WHERE "
          + String.format(EntryTable.STANDS, "p.entry");

  /** One that was merged into another is that one. */
  private static final String STAGE =
      " AND coalesce((SELECT m.position FROM stage m WHERE m.id = t.merged_into), t.position) = ?";

  private static final String WITH_BLADE =
      " AND s.id IN (SELECT d.session FROM session_entry d WHERE d.blade IN "
          + BladeTable.IDS
          + " AND "
          + String.format(EntryTable.STANDS, "d.entry")
          + ")";

  private final StringBuilder sql = new StringBuilder("WHERE 1");
  private final List<Object> values = new ArrayList<>();
  private final String order;

  private WhereClause(String order) {
    this.order = order;
  }

  static WhereClause of(CutSelection selection) {
    WhereClause condition = new WhereClause(selection.isByJournal() ? FEW_BY_TIME : BY_TIME);
    selection.from().ifPresent(t -> condition.and("c.occurred_at_utc_ns >= ?", UtcNanos.of(t)));
    selection.before().ifPresent(t -> condition.and("c.occurred_at_utc_ns < ?", UtcNanos.of(t)));
    if (selection.countingOnly()) {
      condition.and(
          "COALESCE((SELECT a.counts_again FROM set_aside a WHERE a.cut = c.id"
              + " ORDER BY a.id DESC LIMIT 1), 1) = 1");
    }
    if (selection.isByJournal()) {
      condition.placed(selection);
    }
    return condition;
  }

  private void placed(CutSelection selection) {
    sql.append(" AND ").append(PLACED);
    selection.session().ifPresent(name -> more(" AND s.name = ?", name));
    selection.stage().ifPresent(order -> more(STAGE, order));
    selection.blade().ifPresent(label -> more(WITH_BLADE, label));
    sql.append(')');
  }

  private void more(String text, Object... further) {
    sql.append(text);
    values.addAll(List.of(further));
  }

  WhereClause and(String comparison, Object... further) {
    more(" AND " + comparison, further);
    return this;
  }

  String sql() {
    return sql.toString();
  }

  String newestFirst() {
    return order;
  }

  Query bind(Query query) {
    return query.with(values.toArray());
  }
}
