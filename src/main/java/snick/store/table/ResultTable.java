package snick.store.table;

import java.util.List;
import java.util.OptionalLong;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import snick.cut.CutFigures;
import snick.cut.Flag;
import snick.cut.Outcome;
import snick.store.database.Database;
import snick.store.database.Query;
import snick.store.database.Row;
import snick.store.record.Derivation;

/** Results of cuts as rows: the first in that of its cut, later ones in cut_result. */
public final class ResultTable {
  private static final List<String> EACH =
      Stream.concat(
              Stream.of("detector_version", "created_at_utc_ns"),
              Query.columns(CutFigures.ATTRIBUTES).stream())
          .toList();

  /** What a row of a result holds, in cut as in cut_result. */
  static final String FIGURES = String.join(", ", EACH) + ", response";

  /** A parameter for each of {@link #FIGURES}. */
  static final String PARAMETERS = "?, ".repeat(EACH.size()) + ResponseTable.OF_ID;

  /** The columns of {@link #map} of the row in q (cut_result) if there is one, else of c (cut). */
  static final String COLUMNS =
      "coalesce(q.id, 0) AS result_id, "
          + EACH.stream().map(ResultTable::current).collect(Collectors.joining(", "))
          + ", "
          + ResponseTable.id("iif(q.id IS NULL, c.response, q.response)");

  /** Of them, what {@link #outcome} and {@link #flags} read. */
  static final String OUTCOME = current("outcome") + ", " + current("flags");

  private static final String HISTORY =
      "SELECT %s AS result_id, " + FIGURES + ", " + ResponseTable.id("response") + " FROM %s = ?";

  private final Database database;

  public ResultTable(Database database) {
    this.database = database;
  }

  private static String current(String column) {
    return String.format("iif(q.id IS NULL, c.%1$s, q.%1$s) AS %1$s", column);
  }

  /** Adds a later result to a cut; its id. */
  public long add(long cutId, Derivation later) {
    Query insertion =
        database.query(
            "INSERT INTO cut_result (cut, " + FIGURES + ") VALUES (?, " + PARAMETERS + ")");
    return bind(insertion.with(cutId), later).insertedId();
  }

  /** Gives the next parameters, which are {@link #PARAMETERS}. */
  static Query bind(Query query, Derivation result) {
    return query
        .with(result.detectorVersion(), result.createdAt())
        .values(CutFigures.ATTRIBUTES, result.figures())
        .with(result.responseId());
  }

  /** The latest of a cut's later results; empty if its first is current. */
  public OptionalLong latestLater(long cutId) {
    return database
        .query("SELECT max(id) AS id FROM cut_result WHERE cut = ?")
        .with(cutId)
        .first(row -> row.optionalWhole("id"))
        .orElseThrow();
  }

  /** Oldest first. */
  public List<Derivation> ofCut(long cutId) {
    return database
        .query(
            String.format(HISTORY, "0", "cut WHERE id")
                + " UNION ALL "
                + String.format(HISTORY, "id", "cut_result WHERE cut")
                + " ORDER BY 1")
        .with(cutId, cutId)
        .list(ResultTable::map);
  }

  /** Cuts of which there is more than what stands. */
  public Set<Long> derivedAgain() {
    return Set.copyOf(
        database
            .query(
                "SELECT cut FROM cut_result"
                    + " UNION SELECT cut FROM cut_force GROUP BY cut HAVING count(*) > 1")
            .list(row -> row.whole("cut")));
  }

  static Outcome outcome(Row row) {
    return Outcome.ofWord(row.text("outcome"));
  }

  static Set<Flag> flags(Row row) {
    return CutFigures.flags(row.text("flags"));
  }

  static Derivation map(Row row) {
    return new Derivation(
        row.whole("result_id"),
        row.integer("detector_version"),
        row.instant("created_at_utc_ns"),
        CutFigures.read(row),
        row.optionalText("response_id"));
  }
}
