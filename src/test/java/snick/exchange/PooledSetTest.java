package snick.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static snick.quantity.Attribute.Type.REAL;
import static snick.quantity.Attribute.Type.SECONDS;
import static snick.quantity.Attribute.Type.TIME;

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
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.FolderCopy;
import snick.cut.Cut;
import snick.cut.Outcome;
import snick.exchange.table.PackageTable;
import snick.exchange.write.ExportChoice;
import snick.exchange.write.Licence;
import snick.exchange.write.PackageExport;
import snick.exchange.write.ParquetExport;
import snick.quantity.Attribute;
import snick.store.StoreReader;
import snick.store.database.Watch;
import snick.store.record.CutSelection;

/** DuckDB, an engine that is not ours, reads what was written: the queries of the pooling page. */
class PooledSetTest {
  private static final int PRESSES = 8;
  private static final String ANN = "Ann S.";
  private static final Pattern SQL = Pattern.compile("```sql\\n(.*?)```", Pattern.DOTALL);

  @TempDir static Path written;
  @TempDir Path temporary;
  private Path set;
  private Path folder;

  @BeforeAll
  static void write() throws IOException {
    Path data = written.resolve("store");
    Bench.fill(data, PRESSES);
    ExportChoice all =
        ExportChoice.of(CutSelection.all()).from(ANN).under(new Licence("CC-BY-4.0"));
    try (StoreReader reader = StoreReader.open(data)) {
      new ParquetExport(reader, all, Watch.NONE).toFolder(written.resolve("pool"));
      new PackageExport(reader, all, Watch.NONE).toFolder(written.resolve("package"));
    }
  }

  @BeforeEach
  void copy() throws IOException {
    FolderCopy.lay(written, temporary);
    set = temporary.resolve("pool");
    folder = temporary.resolve("package");
  }

  private static Connection duck() throws SQLException {
    return DriverManager.getConnection("jdbc:duckdb:");
  }

  private static List<List<String>> rows(Connection duck, String sql) throws SQLException {
    try (Statement statement = duck.createStatement();
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

  private static List<List<String>> rows(String sql) throws SQLException {
    try (Connection duck = duck()) {
      return rows(duck, sql);
    }
  }

  private String table(String name) {
    return "read_parquet('" + set + "/" + name + "/**/*.parquet', hive_partitioning = true)";
  }

  @Test
  void filesLieByContributorRigAndDate() {
    String place = "/contributor=Ann%20S./rig=" + Bench.RIG;
    assertThat(set.resolve("cuts" + place + "/date=2026-05-04")).isDirectory();
    assertThat(set.resolve("traces" + place + "/date=2026-05-04")).isDirectory();
    assertThat(set.resolve("recordings" + place)).isDirectory();
  }

  @Test
  void cutsAndSamplesAreTheStoredOnes() throws SQLException {
    List<Cut> stored = Bench.cuts(PRESSES);
    List<List<String>> found =
        rows(
            "SELECT number, outcome, estimate_counts, rig, contributor, licence FROM "
                + table("cuts")
                + " ORDER BY number");
    assertThat(found).hasSize(stored.size());
    for (Cut cut : stored) {
      List<String> row = found.get(cut.number() - 1);
      assertThat(row.get(1)).isEqualTo(cut.outcome().word());
      assertThat(Double.parseDouble(row.get(2)))
          .isEqualTo(cut.peak().orElseThrow().estimateCounts());
      assertThat(row.subList(3, 6)).containsExactly(Bench.RIG, ANN, "CC-BY-4.0");
    }
    for (Cut cut : stored) {
      assertSamples(cut);
    }
  }

  private void assertSamples(Cut cut) throws SQLException {
    List<List<String>> samples =
        rows(
            "SELECT t_ns, counts, list_contains(overrange, sample) FROM (SELECT unnest(t_ns) AS t_ns,"
                + " unnest(counts) AS counts, overrange, generate_subscripts(counts, 1) - 1 AS sample"
                + " FROM "
                + table("traces")
                + " WHERE number = "
                + cut.number()
                + ") ORDER BY sample");
    assertThat(samples).hasSize(cut.trace().size());
    for (int i = 0; i < samples.size(); i++) {
      assertThat(samples.get(i))
          .containsExactly(
              Long.toString(cut.trace().deviceNanos(i)),
              Integer.toString(cut.trace().counts(i)),
              Boolean.toString(cut.trace().overrange(i)));
    }
  }

  @Test
  void everyColumnOfTheCutsOfAPackageIsThereWithTheSameValues() throws SQLException {
    String csv = "read_csv('" + folder + "/cuts.csv')";
    for (Attribute<?> column : PackageTable.CUTS.columns()) {
      if (!List.of("cut", "recording", "session", "stage", "source", "calibration")
          .contains(column.name())) {
        String query = "SELECT CAST(" + column.name() + " AS VARCHAR) FROM %s ORDER BY number";
        if (column.type() == REAL || column.type() == SECONDS) {
          query = "SELECT CAST(" + column.name() + " AS DOUBLE) FROM %s ORDER BY number";
        } else if (column.type() == TIME) {
          query =
              "SELECT epoch_us(CAST(" + column.name() + " AS TIMESTAMPTZ)) FROM %s ORDER BY number";
        }
        assertThat(rows(query.formatted(table("cuts"))))
            .as(column.name())
            .isEqualTo(rows(query.formatted(csv)));
      }
    }
  }

  @Test
  void theJournalTheRecordingAndTheCalibrationAreThere() throws SQLException {
    assertThat(
            rows(
                "SELECT DISTINCT session, blade, lot FROM "
                    + table("cuts")
                    + " WHERE session IS NOT NULL"))
        .containsExactly(List.of(Bench.SESSION, "=2+5 petty", "lot 3"));
    assertThat(
            rows(
                "SELECT stage_number, stage, steel, hardness_hrc, lot_material, lot_diameter_mm,"
                    + " lot_tension_n FROM "
                    + table("stages")
                    + " ORDER BY stage_number"))
        .containsExactly(
            List.of("1", "as found", "steel, \"w2\"", "62.5", "nylon monofilament", "0.2", "2.5"),
            List.of("2", "stropped", "steel, \"w2\"", "62.5", "nylon monofilament", "0.2", "2.5"));
    assertThat(rows("SELECT firmware, gain, nominal_rate_hz FROM " + table("recordings")))
        .containsExactly(List.of("sketch 1.2", "128", "80.0"));
    assertThat(
            rows(
                "SELECT calibration, coefficients, covariance[5], to_n, term_source, term_relative"
                    + " FROM "
                    + table("calibrations")))
        .containsExactly(
            List.of(
                Bench.calibration().id(),
                "[0.1, 44587.3, -3.25]",
                "81.25",
                "6.0",
                "[gravity]",
                "[1.2e-05]"));
  }

  @Test
  void eachFileSaysWhoseItIsUnderWhichLicenceAndInWhichUnits() throws SQLException {
    for (String name : List.of("cuts", "traces", "recordings", "calibrations", "stages")) {
      List<List<String>> facts =
          rows(
              "SELECT decode(key), decode(value) FROM parquet_kv_metadata('"
                  + set
                  + "/"
                  + name
                  + "/**/*.parquet')");
      assertThat(facts)
          .as(name)
          .contains(
              List.of("table", name), List.of("contributor", ANN), List.of("licence", "CC-BY-4.0"));
      assertThat(facts).anyMatch(fact -> fact.get(0).equals("units"));
    }
    assertThat(
            rows("SELECT DISTINCT compression FROM parquet_metadata('" + set + "/**/*.parquet')"))
        .containsExactly(List.of("ZSTD"));
  }

  @Test
  void rigsOfTwoPeopleThatAreCalledAlikeStayApart() throws IOException, SQLException {
    try (StoreReader reader = StoreReader.open(temporary.resolve("store"))) {
      Path other = temporary.resolve("other");
      ExportChoice hers = ExportChoice.of(CutSelection.all()).from("Bea");
      new ParquetExport(reader, hers, Watch.NONE).toFolder(other);
      FolderCopy.lay(other, set);
    }
    assertThat(
            rows(
                "SELECT contributor, count(*) FROM "
                    + table("cuts")
                    + " GROUP BY ALL ORDER BY ALL"))
        .containsExactly(
            List.of(ANN, Integer.toString(PRESSES)), List.of("Bea", Integer.toString(PRESSES)));
  }

  @Test
  void thePagesQueriesRunAndTheRawTracesGiveTheForces() throws IOException, SQLException {
    String page = Files.readString(Path.of("src/site/markdown/pooling.md"));
    List<List<List<String>>> answers = new ArrayList<>();
    try (Connection duck = duck()) {
      for (MatchResult block : SQL.matcher(page).results().toList()) {
        for (String sql : block.group(1).replace("'pool/", "'" + set + "/").split(";", -1)) {
          if (sql.strip().startsWith("SELECT")) {
            answers.add(rows(duck, sql));
          } else if (!sql.isBlank()) {
            try (Statement statement = duck.createStatement()) {
              statement.execute(sql);
            }
          }
        }
      }
    }
    assertThat(answers).hasSize(4).allSatisfy(answer -> assertThat(answer).isNotEmpty());
    long severed = Bench.cuts(PRESSES).stream().filter(c -> c.outcome() == Outcome.SEVERED).count();
    assertThat(answers.get(2)).hasSize((int) severed);
    for (List<String> row : answers.get(2)) {
      String ofCsv =
          rows("SELECT max(t.force_n) FROM read_csv('"
                  + folder
                  + "/traces.csv') t JOIN read_csv('"
                  + folder
                  + "/cuts.csv') c USING (cut) WHERE c.number = "
                  + row.get(1))
              .get(0)
              .get(0);
      assertThat(Double.parseDouble(row.get(3)))
          .isCloseTo(Double.parseDouble(ofCsv), Percentage.withPercentage(1e-9));
      assertThat(Double.parseDouble(row.get(3)))
          .isBetween(0.95 * Double.parseDouble(row.get(2)), 1.01 * Double.parseDouble(row.get(2)));
    }
  }

  @Test
  void whoeverNamesNobodyIsRefusedWithTheReason() {
    try (StoreReader reader = StoreReader.open(temporary.resolve("store"))) {
      assertThatThrownBy(
              () -> new ParquetExport(reader, ExportChoice.of(CutSelection.all()), Watch.NONE))
          .isInstanceOf(IllegalArgumentException.class)
          .hasMessageContaining("--contributor");
    }
  }

  @Test
  void aNameTooLongForAFolderIsADigest() {
    assertThat(ParquetExport.key("Ann S./é*")).isEqualTo("Ann%20S.%2F%C3%A9%2A");
    assertThat(ParquetExport.key("é".repeat(100))).startsWith("name-").hasSizeLessThan(60);
  }

  @Test
  void aSetThatIsStoppedLeavesNothing() throws IOException {
    try (StoreReader reader = StoreReader.open(temporary.resolve("store"))) {
      ParquetExport export =
          new ParquetExport(
              reader,
              ExportChoice.of(CutSelection.all()).from(ANN),
              (doing, done, total) -> done < 3);
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
