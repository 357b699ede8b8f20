package snick.store;

import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Collectors;
import snick.cut.Cut;
import snick.cut.Flag;
import snick.cut.Outcome;
import snick.cut.Peak;

/** Results of cuts as rows. */
final class ResultTable {
  /** The columns of {@link #map}, of a table named q. */
  static final String COLUMNS =
      "q.id AS result_id, q.detector_version, q.created_at_utc_ns AS result_created_at_utc_ns,"
          + " q.outcome, q.polarity, q.onset_ns, q.break_ns, q.observed_max_counts,"
          + " q.estimate_counts, q.u_counts, q.loading_rate_counts_per_s, q.fall_ns, q.dips,"
          + " q.ramp_samples, q.zero_before_counts, q.zero_after_counts, q.noise_counts, q.flags";

  private final Database database;

  ResultTable(Database database) {
    this.database = database;
  }

  long add(long cutId, int detectorVersion, Cut cut, Instant createdAt) {
    Cut.Shape shape = cut.shape();
    Cut.Rest rest = cut.rest();
    return database
        .query(
            "INSERT INTO cut_result (cut, detector_version, created_at_utc_ns, outcome, polarity,"
                + " onset_ns, break_ns, observed_max_counts, estimate_counts, u_counts,"
                + " loading_rate_counts_per_s, fall_ns, dips, ramp_samples, zero_before_counts,"
                + " zero_after_counts, noise_counts, flags)"
                + " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) RETURNING id")
        .whole(cutId)
        .whole(detectorVersion)
        .instant(createdAt)
        .text(cut.outcome().word())
        .whole(cut.polarity())
        .whole(cut.onsetNanos())
        .whole(cut.breakNanos())
        .real(cut.peak().stream().mapToDouble(Peak::observedMaxCounts).findFirst())
        .real(cut.peak().stream().mapToDouble(Peak::estimateCounts).findFirst())
        .real(cut.peak().stream().mapToDouble(Peak::standardUncertaintyCounts).findFirst())
        .real(shape.loadingRateCountsPerSecond())
        .whole(shape.fallNanos())
        .whole(shape.dips())
        .whole(shape.rampSamples())
        .real(rest.zeroBeforeCounts())
        .real(rest.zeroAfterCounts())
        .real(rest.noiseCounts())
        .text(words(cut.flags()))
        .insertedId()
        .orElseThrow();
  }

  Optional<Long> currentOf(long cutId) {
    return database
        .query("SELECT max(id) AS id FROM cut_result WHERE cut = ?")
        .whole(cutId)
        .first(row -> row.optionalWhole("id"))
        .flatMap(id -> id.stream().boxed().findFirst());
  }

  List<StoredResult> ofCut(long cutId) {
    return database
        .query("SELECT " + COLUMNS + " FROM cut_result q WHERE q.cut = ? ORDER BY q.id")
        .whole(cutId)
        .list(ResultTable::map);
  }

  /** Cuts of which there is more than what stands. */
  Set<Long> derivedAgain() {
    return Set.copyOf(
        database
            .query(
                "SELECT cut FROM cut_result GROUP BY cut HAVING count(*) > 1"
                    + " UNION SELECT q.cut FROM cut_force f JOIN cut_result q ON q.id = f.result"
                    + " GROUP BY f.result HAVING count(*) > 1")
            .list(row -> row.whole("cut")));
  }

  static StoredResult map(Row row) {
    return new StoredResult(
        row.whole("result_id"),
        row.integer("detector_version"),
        row.instant("result_created_at_utc_ns"),
        Outcome.valueOf(row.text("outcome").toUpperCase(Locale.ROOT)),
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
        flags(row.text("flags")));
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
    return flags.stream().sorted().map(Flag::word).collect(Collectors.joining(" "));
  }

  private static Set<Flag> flags(String words) {
    return words.isEmpty()
        ? Set.of()
        : Arrays.stream(words.split(" "))
            .map(word -> Flag.valueOf(word.toUpperCase(Locale.ROOT)))
            .collect(Collectors.toUnmodifiableSet());
  }
}
