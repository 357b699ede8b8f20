package snick.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.cut.Cut;
import snick.cut.Outcome;
import snick.store.CutSelection;
import snick.store.StoreReader;
import snick.store.Watch;

/** DuckDB, an engine that is not ours, reads what was written: the queries of the pooling page. */
class PooledSetTest {
  private static final int PRESSES = 8;

  @TempDir Path temporary;
  private Path set;
  private Path folder;

  @BeforeEach
  void write() throws IOException {
    Path data = temporary.resolve("store");
    Bench.fill(data, PRESSES);
    set = temporary.resolve("pool");
    folder = temporary.resolve("package");
    ExportChoice all = ExportChoice.of(CutSelection.all());
    try (StoreReader reader = StoreReader.open(data)) {
      new ParquetExport(reader, all, Watch.NONE).toFolder(set);
      new PackageExport(reader, all, Watch.NONE).toFolder(folder);
    }
  }

  private static List<List<String>> rows(String sql) throws SQLException {
    try (Connection duck = DriverManager.getConnection("jdbc:duckdb:");
        Statement statement = duck.createStatement();
        ResultSet rows = statement.executeQuery(sql)) {
      List<List<String>> found = new ArrayList<>();
      while (rows.next()) {
        List<String> row = new ArrayList<>();
        for (int i = 1; i <= rows.getMetaData().getColumnCount(); i++) {
          row.add(rows.getString(i));
        }
        found.add(row);
      }
      return found;
    }
  }

  private String cuts() {
    return "read_parquet('" + set + "/cuts/**/*.parquet', hive_partitioning = true)";
  }

  private String traces() {
    return "read_parquet('" + set + "/traces/**/*.parquet', hive_partitioning = true)";
  }

  @Test
  void filesLieByRigAndDate() {
    assertThat(set.resolve("cuts/rig=" + Bench.RIG + "/date=2026-05-04")).isDirectory();
    assertThat(set.resolve("traces/rig=" + Bench.RIG + "/date=2026-05-04")).isDirectory();
  }

  @Test
  void cutsAndSamplesAreTheStoredOnes() throws SQLException {
    List<Cut> stored = Bench.cuts(PRESSES);
    List<List<String>> found =
        rows("SELECT number, outcome, estimate_counts, rig FROM " + cuts() + " ORDER BY number");
    assertThat(found).hasSize(stored.size());
    for (Cut cut : stored) {
      List<String> row = found.get(cut.number() - 1);
      assertThat(row.get(1)).isEqualTo(cut.outcome().word());
      assertThat(Double.parseDouble(row.get(2)))
          .isEqualTo(cut.peak().orElseThrow().estimateCounts());
      assertThat(row.get(3)).isEqualTo(Bench.RIG);
    }
    Cut third = stored.get(2);
    List<List<String>> samples =
        rows(
            "SELECT t_ns, counts, overrange FROM "
                + traces()
                + " WHERE number = 3 ORDER BY sample");
    assertThat(samples).hasSize(third.trace().size());
    for (int i = 0; i < samples.size(); i++) {
      assertThat(samples.get(i))
          .containsExactly(
              Long.toString(third.trace().deviceNanos(i)),
              Integer.toString(third.trace().counts(i)),
              Boolean.toString(third.trace().overrange(i)));
    }
  }

  @Test
  void theRawTraceGivesTheLargestForceToWhoeverAsks() throws SQLException {
    List<List<String>> severed =
        rows(
            "SELECT c.number, c.force_n, max(t.force_n) FROM "
                + cuts()
                + " c JOIN "
                + traces()
                + " t USING (rig, recording_started_utc_ns, number)"
                + " WHERE c.outcome = 'severed' GROUP BY ALL ORDER BY 1");
    assertThat(severed)
        .hasSize(
            (int) Bench.cuts(PRESSES).stream().filter(c -> c.outcome() == Outcome.SEVERED).count());
    for (List<String> row : severed) {
      double atBreak = Double.parseDouble(row.get(1));
      assertThat(Double.parseDouble(row.get(2))).isBetween(0.95 * atBreak, 1.01 * atBreak);
    }
  }

  @Test
  void theCsvOfAPackageSaysTheSame() throws SQLException {
    String csv = "read_csv('" + folder + "/traces.csv')";
    assertThat(rows("SELECT count(*), sum(counts), max(force_n) FROM " + csv))
        .isEqualTo(rows("SELECT count(*), sum(counts), max(force_n) FROM " + traces()));
  }

  @Test
  void aSetThatIsStoppedLeavesNothing() throws IOException {
    try (StoreReader reader = StoreReader.open(temporary.resolve("store"))) {
      ParquetExport export =
          new ParquetExport(
              reader, ExportChoice.of(CutSelection.all()), (doing, done, total) -> done < 3);
      Path target = temporary.resolve("stopped");
      assertThat(org.assertj.core.api.Assertions.catchThrowable(() -> export.toFolder(target)))
          .isInstanceOf(Watch.Stopped.class);
      assertThat(target).doesNotExist();
    }
    try (var left = Files.list(temporary)) {
      assertThat(left.filter(p -> p.getFileName().toString().startsWith(".snick"))).isEmpty();
    }
  }
}
