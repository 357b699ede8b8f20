package snick.store;

import java.util.ArrayList;
import java.util.List;

/** A WHERE clause that grows, and its parameters. */
final class Condition {
  private final StringBuilder sql = new StringBuilder("WHERE 1");
  private final List<Long> parameters = new ArrayList<>();

  static Condition of(CutSelection selection) {
    Condition condition = new Condition();
    selection.recordingId().ifPresent(id -> condition.and("c.recording = ?", id));
    selection.from().ifPresent(t -> condition.and("c.occurred_at_utc_ns >= ?", UtcNanos.of(t)));
    selection.before().ifPresent(t -> condition.and("c.occurred_at_utc_ns < ?", UtcNanos.of(t)));
    return condition;
  }

  Condition and(String comparison, long... values) {
    sql.append(" AND ").append(comparison);
    for (long value : values) {
      parameters.add(value);
    }
    return this;
  }

  String sql() {
    return sql.toString();
  }

  Query bind(Query query) {
    parameters.forEach(query::whole);
    return query;
  }
}
