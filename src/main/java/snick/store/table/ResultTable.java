package snick.store.table;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.Set;
import java.util.StringJoiner;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import snick.cut.Cut;
import snick.cut.Flag;
import snick.cut.Outcome;
import snick.cut.Peak;
import snick.store.database.Database;
import snick.store.database.Query;
import snick.store.database.Row;
import snick.store.record.Derivation;
import snick.store.record.StoredResult;

/** Results of cuts as rows: the first in that of its cut, later ones in cut_result. */
public final class ResultTable {
  private static final List<String> EACH =
      List.of(
          "detector_version",
          "created_at_utc_ns",
          "outcome",
          "polarity",
          "onset_ns",
          "break_ns",
          "observed_max_counts",
          "estimate_counts",
          "u_counts",
          "loading_rate_counts_per_s",
          "fall_ns",
          "dips",
          "ramp_samples",
          "zero_before_counts",
          "zero_after_counts",
          "noise_counts",
          "flags");

  /** What a row of a result holds, in cut as in cut_result. */
  static final String FIGURES = String.join(", ", EACH) + ", response";

  /** A parameter for each of {@link #FIGURES}. */
  static final String PARAMETERS =
      EACH.stream().map(name -> "?").collect(Collectors.joining(", ")) + ", " + ResponseTable.OF_ID;

  /** The columns of {@link #map} of the row in q (cut_result) if there is one, else of c (cut). */
  static final String COLUMNS =
      "coalesce(q.id, 0) AS result_id, "
          + EACH.stream()
              .map(name -> String.format("iif(q.id IS NULL, c.%1$s, q.%1$s) AS %1$s", name))
              .collect(Collectors.joining(", "))
          + ", "
          + ResponseTable.id("iif(q.id IS NULL, c.response, q.response)");

  /** Of them, what {@link #outcome} and {@link #flags} read. */
  static final String OUTCOME =
      "iif(q.id IS NULL, c.outcome, q.outcome) AS outcome,"
          + " iif(q.id IS NULL, c.flags, q.flags) AS flags";

  private static final List<Flag> ALL_FLAGS = List.of(Flag.values());

  private final Database database;

  public ResultTable(Database database) {
    this.database = database;
  }

  /** Adds a later result to a cut; its id. */
  public long add(long cutId, Derivation later) {
    Query insertion =
        database.query(
            "INSERT INTO cut_result (cut, " + FIGURES + ") VALUES (?, " + PARAMETERS + ")");
    return bind(insertion.whole(cutId), later).insertedId();
  }

  /** Gives the next parameters, which are {@link #PARAMETERS}. */
  static Query bind(Query query, Derivation result) {
    Cut cut = result.cut();
    Cut.Shape shape = cut.shape();
    Cut.Rest rest = cut.rest();
    return query
        .whole(result.detectorVersion())
        .instant(result.createdAt())
        .text(cut.outcome().word())
        .whole(cut.polarity())
        .whole(cut.onsetNanos())
        .whole(cut.breakNanos())
        .real(of(cut, Peak::observedMaxCounts))
        .real(of(cut, Peak::estimateCounts))
        .real(of(cut, Peak::standardUncertaintyCounts))
        .real(shape.loadingRateCountsPerSecond())
        .whole(shape.fallNanos())
        .whole(shape.dips())
        .whole(shape.rampSamples())
        .real(rest.zeroBeforeCounts())
        .real(rest.zeroAfterCounts())
        .real(rest.noiseCounts())
        .text(words(cut.flags()))
        .text(cut.response().known() ? Optional.of(cut.response().id()) : Optional.empty());
  }

  private static OptionalDouble of(Cut cut, ToDoubleFunction<Peak> counts) {
    return cut.peak().isPresent()
        ? OptionalDouble.of(counts.applyAsDouble(cut.peak().get()))
        : OptionalDouble.empty();
  }

  /** The latest of a cut's later results; empty if its first is current. */
  public OptionalLong latestLater(long cutId) {
    return database
        .query("SELECT max(id) AS id FROM cut_result WHERE cut = ?")
        .whole(cutId)
        .first(row -> row.optionalWhole("id"))
        .orElseThrow();
  }

  /** Oldest first. */
  public List<StoredResult> ofCut(long cutId) {
    return database
        .query(
            "SELECT 0 AS result_id, "
                + FIGURES
                + ", "
                + ResponseTable.id("response")
                + " FROM cut WHERE id = ? UNION ALL SELECT id, "
                + FIGURES
                + ", "
                + ResponseTable.id("response")
                + " FROM cut_result WHERE cut = ? ORDER BY 1")
        .whole(cutId)
        .whole(cutId)
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
    return Outcome.valueOf(row.text("outcome").toUpperCase(Locale.ROOT));
  }

  static Set<Flag> flags(Row row) {
    return flags(row.text("flags"));
  }

  static StoredResult map(Row row) {
    return new StoredResult(
        row.whole("result_id"),
        row.integer("detector_version"),
        row.instant("created_at_utc_ns"),
        outcome(row),
        row.integer("polarity"),
        row.whole("onset_ns"),
        row.optionalWhole("break_ns"),
        peak(row),
        new Cut.Shape(
            row.real("loading_rate_counts_per_s"),
            row.whole("fall_ns"),
            row.integer("dips"),
            row.integer("ramp_samples")),
        new Cut.Rest(
            row.real("zero_before_counts"),
            row.real("zero_after_counts"),
            row.real("noise_counts")),
        flags(row),
        row.optionalText("response_id"));
  }

  private static Optional<Peak> peak(Row row) {
    OptionalDouble observedMaxCounts = row.optionalReal("observed_max_counts");
    return observedMaxCounts.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new Peak(
                observedMaxCounts.getAsDouble(),
                row.real("estimate_counts"),
                row.real("u_counts")));
  }

  private static String words(Set<Flag> flags) {
    StringJoiner words = new StringJoiner(" ");
    for (Flag flag : ALL_FLAGS) {
      if (flags.contains(flag)) {
        words.add(flag.word());
      }
    }
    return words.toString();
  }

  private static Set<Flag> flags(String words) {
    return words.isEmpty()
        ? Set.of()
        : Arrays.stream(words.split(" "))
            .map(word -> Flag.valueOf(word.toUpperCase(Locale.ROOT)))
            .collect(Collectors.toUnmodifiableSet());
  }
}
