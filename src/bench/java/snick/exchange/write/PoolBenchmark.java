package snick.exchange.write;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Clock;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import snick.cut.Cut;
import snick.cut.CutFigures;
import snick.cut.Outcome;
import snick.cut.Peak;
import snick.cut.Trace;
import snick.force.budget.Calibration;
import snick.quantity.Force;
import snick.quantity.SampleRate;
import snick.store.Intake;
import snick.store.Store;
import snick.store.StoreReader;
import snick.store.database.Watch;
import snick.store.record.CutForce;
import snick.store.record.CutSelection;
import snick.store.record.NewCut;
import snick.store.record.Origin;
import snick.store.record.Recording;

/**
 * A pool of many small files beside the same compacted by the pooling page's own SQL, in DuckDB:
 * invented cuts of three rigs, twelve a recording, a recording a day each. Run {@code
 * src/bench/pool}.
 */
public final class PoolBenchmark {
  private static final int CUTS_OF_RECORDING = 12;
  private static final int RIGS = 3;
  private static final int SAMPLES = 400;
  private static final Instant START = Instant.parse("2018-05-04T18:00:00Z");
  private static final Calibration CALIBRATION = Calibration.countsPerGramForce(437.25, START);
  private static final Pattern SQL = Pattern.compile("```sql\n(.*?)```", Pattern.DOTALL);
  private static final String QUERY =
      "SELECT contributor, rig, count(*), median(force_n) FROM %s"
          + " WHERE outcome = 'severed' AND NOT set_aside GROUP BY ALL ORDER BY ALL";

  private final Path directory;
  private final int cuts;

  private PoolBenchmark(Path directory, int cuts) {
    this.directory = directory;
    this.cuts = cuts;
  }

  /** Arguments: an empty directory, how many cuts, how many rounds. */
  public static void main(String[] args) throws IOException, SQLException {
    PoolBenchmark bench = new PoolBenchmark(Path.of(args[0]), Integer.parseInt(args[1]));
    Path set = bench.write();
    try (Connection duck = DriverManager.getConnection("jdbc:duckdb:")) {
      long begun = System.nanoTime();
      bench.compact(duck, set);
      System.out.printf(Locale.ROOT, "compacting: %.1f s%n", (System.nanoTime() - begun) / 1e9);
      bench.size(set, "traces", "list");
      bench.rowPerSample(duck, set, "snappy");
      bench.rowPerSample(duck, set, "zstd");
      String small =
          QUERY.formatted(
              "read_parquet('" + set + "/cuts/**/*.parquet', hive_partitioning = true)");
      String one = QUERY.formatted("'" + set + "/cuts.parquet'");
      bench.compare(duck, small, one, Integer.parseInt(args[2]));
    }
  }

  private void compare(Connection duck, String small, String one, int rounds) throws SQLException {
    double[] ofSmall = new double[rounds];
    double[] ofOne = new double[rounds];
    for (int i = 0; i < rounds; i++) {
      ofSmall[i] = seconds(duck, small);
      ofOne[i] = seconds(duck, one);
    }
    System.out.printf(
        Locale.ROOT,
        "medians of %d: small files %.3f s (%.3f to %.3f), one file %.4f s (%.4f to %.4f),"
            + " %.0f times as quick%n",
        rounds,
        median(ofSmall),
        Arrays.stream(ofSmall).min().orElseThrow(),
        Arrays.stream(ofSmall).max().orElseThrow(),
        median(ofOne),
        Arrays.stream(ofOne).min().orElseThrow(),
        Arrays.stream(ofOne).max().orElseThrow(),
        median(ofSmall) / median(ofOne));
  }

  private static double seconds(Connection duck, String sql) throws SQLException {
    long begun = System.nanoTime();
    try (Statement statement = duck.createStatement();
        ResultSet rows = statement.executeQuery(sql)) {
      int found = 0;
      while (rows.next()) {
        found++;
      }
      if (found != RIGS) {
        throw new IllegalStateException(found + " rigs, not " + RIGS);
      }
    }
    return (System.nanoTime() - begun) / 1e9;
  }

  private static double median(double[] values) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    return sorted[sorted.length / 2];
  }

  private Path write() throws IOException {
    try (Store store = Store.open(directory.resolve("store"), Clock.systemUTC())) {
      store.takeIn(new Origin("bench", "0".repeat(64), "bench", ""), this::fill);
    }
    Path set = directory.resolve("pool");
    long begun = System.nanoTime();
    try (StoreReader reader = StoreReader.open(directory.resolve("store"))) {
      ExportChoice choice =
          ExportChoice.of(CutSelection.all()).from("ann").under(new Licence("CC-BY-4.0"));
      new ParquetExport(reader, choice, Watch.NONE).toFolder(set);
    }
    try (Stream<Path> files = Files.walk(set.resolve("cuts"))) {
      System.out.printf(
          Locale.ROOT,
          "%d cuts in %d files, written in %.1f s%n",
          cuts,
          files.filter(Files::isRegularFile).count(),
          (System.nanoTime() - begun) / 1e9);
    }
    return set;
  }

  private void compact(Connection duck, Path set) throws IOException, SQLException {
    String page = Files.readString(Path.of("src/site/markdown/pooling.md"));
    for (MatchResult block : SQL.matcher(page).results().toList()) {
      for (String sql : block.group(1).replace("'pool/", "'" + set + "/").split(";", -1)) {
        if (sql.strip().startsWith("COPY") && !sql.contains("/stages")) {
          try (Statement statement = duck.createStatement()) {
            statement.execute(sql);
          }
        }
      }
    }
  }

  /** What the same traces take with a row for each sample. */
  private void rowPerSample(Connection duck, Path set, String compression)
      throws IOException, SQLException {
    try (Statement statement = duck.createStatement()) {
      statement.execute(
          "COPY (SELECT contributor, rig, date, recording_started_utc_ns, number,"
              + " generate_subscripts(counts, 1) - 1 AS sample, unnest(t_ns) AS t_ns,"
              + " unnest(counts) AS counts FROM '"
              + set
              + "/traces.parquet') TO '"
              + set
              + "/rows.parquet' (FORMAT parquet, COMPRESSION "
              + compression
              + ")");
    }
    size(set, "rows", "a row a sample, " + compression);
  }

  private void size(Path set, String table, String what) throws IOException {
    System.out.printf(
        Locale.ROOT,
        "%s.parquet (%s): %.1f MB, %.2f bytes a sample%n",
        table,
        what,
        Files.size(set.resolve(table + ".parquet")) / 1e6,
        Files.size(set.resolve(table + ".parquet")) / ((double) cuts * SAMPLES));
  }

  private void fill(Intake intake) {
    intake.calibration(CALIBRATION, Optional.empty());
    SplittableRandom random = new SplittableRandom(1);
    long recording = 0;
    Instant started = START;
    for (int i = 0; i < cuts; i++) {
      int number = i % CUTS_OF_RECORDING + 1;
      if (number == 1) {
        int which = i / CUTS_OF_RECORDING;
        started = START.plusSeconds(86_400L * (which / RIGS));
        recording = intake.recording(recording("bench " + which % RIGS, started), Optional.empty());
      }
      intake.cut(
          NewCut.of(recording, started.plusSeconds(10L * number), cut(number, random))
              .with(
                  new CutForce(
                      CALIBRATION.derive(57_000 + random.nextInt(2000), 20),
                      Force.ofNewtons(CALIBRATION.newtons(56_000)))),
          Cut.DETECTOR_VERSION,
          List.of());
    }
  }

  private static Recording recording(String rig, Instant started) {
    return new Recording(
        rig,
        "bench",
        "bench",
        Recording.Form.BINARY,
        started,
        OptionalInt.of(128),
        Optional.of(new SampleRate(80)),
        0);
  }

  private static Cut cut(int number, SplittableRandom random) {
    long[] nanos = new long[SAMPLES];
    int[] counts = new int[SAMPLES];
    for (int i = 0; i < SAMPLES; i++) {
      nanos[i] = 10_000_000_000L * number + 12_500_000L * i + 1_000L * random.nextInt(20);
      int ramp = i < 120 || i > 280 ? 0 : 350 * (i - 120);
      counts[i] = -812 + ramp + random.nextInt(-120, 121);
    }
    return new Cut(
        number,
        new CutFigures(
            Outcome.SEVERED,
            1,
            nanos[120],
            OptionalLong.of(nanos[280]),
            Optional.of(new Peak(56_000, 57_000, 20)),
            new CutFigures.Shape(28_000, 12_000_000, 0, 160),
            new CutFigures.Rest(-812.25, -811.5, 60),
            Set.of()),
        new Trace(nanos, counts, new boolean[SAMPLES], List.of()));
  }
}
