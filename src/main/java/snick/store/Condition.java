package snick.store;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;

/**
 * A WHERE clause on a table named c (cut) that grows, and its parameters. Times are compared with
 * those of c or of {@link TimeOrder}.
 */
final class Condition {
  /** Each trace lies at the place that its recording and number make. */
  private static final String RECORDED =
      "c.id IN (SELECT r.cut FROM cut_trace r WHERE r.place BETWEEN ? AND ?)";

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
  private final List<Consumer<Query>> bindings = new ArrayList<>();
  private final String timed;

  private Condition(String timed) {
    this.timed = timed;
  }

  static Condition of(CutSelection selection) {
    return new Condition("c").meets(selection);
  }

  /** For {@link TimeOrder#each}. */
  static Condition inOrderOfTime(CutSelection selection) {
    return new Condition("t").meets(selection);
  }

  private Condition meets(CutSelection selection) {
    String time = timed + ".occurred_at_utc_ns";
    selection
        .recordingId()
        .ifPresent(
            id -> and(RECORDED, CutTable.place(id, 1), CutTable.place(id, Integer.MAX_VALUE)));
    selection.from().ifPresent(t -> and(time + " >= ?", UtcNanos.of(t)));
    selection.before().ifPresent(t -> and(time + " < ?", UtcNanos.of(t)));
    if (selection.countingOnly()) {
      and(
          "COALESCE((SELECT a.counts_again FROM set_aside a WHERE a.cut = c.id"
              + " ORDER BY a.id DESC LIMIT 1), 1) = 1");
    }
    if (selection.isByJournal()) {
      placed(selection);
    }
    return this;
  }

  private void placed(CutSelection selection) {
    sql.append(" AND ").append(PLACED);
    selection.session().ifPresent(name -> more(" AND s.name = ?", query -> query.text(name)));
    selection.stage().ifPresent(order -> more(STAGE, query -> query.whole(order)));
    selection.blade().ifPresent(label -> more(WITH_BLADE, query -> query.text(label)));
    sql.append(')');
  }

  private void more(String text, Consumer<Query> binding) {
    sql.append(text);
    bindings.add(binding);
  }

  /** Comes after {@code last} in the order newest first. */
  Condition beforeCut(Optional<CutSummary> last) {
    last.ifPresent(
        cut ->
            and(
                String.format("(%1$s.occurred_at_utc_ns, %1$s.id) < (?, ?)", timed),
                UtcNanos.of(cut.occurredAt()),
                cut.id()));
    return this;
  }

  Condition and(String comparison, long... values) {
    sql.append(" AND ").append(comparison);
    for (long value : values) {
      bindings.add(query -> query.whole(value));
    }
    return this;
  }

  String sql() {
    return sql.toString();
  }

  Query bind(Query query) {
    bindings.forEach(binding -> binding.accept(query));
    return query;
  }
}
