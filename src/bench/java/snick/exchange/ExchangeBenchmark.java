package snick.exchange;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.lang.management.MemoryPoolMXBean;
import java.lang.management.MemoryType;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Set;
import java.util.SplittableRandom;
import snick.cut.Cut;
import snick.cut.CutFigures;
import snick.cut.Outcome;
import snick.cut.Peak;
import snick.cut.Trace;
import snick.exchange.write.ExportChoice;
import snick.exchange.write.PackageExport;
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
 * Exports and imports many cuts, and lets the {@code sqlite3} command do the like in the same run:
 * print the same rows of samples as CSV, and {@code .import} the same two CSV files into plain
 * tables. Prints seconds, ratios, sizes and the largest heap. Arguments: a directory that may be
 * filled, number of cuts (600 samples each), repeats.
 */
final class ExchangeBenchmark {
  private static final int SAMPLES = 600;
  private static final Instant START = Instant.parse("2026-05-04T12:00:00Z");
  private static final Calibration CALIBRATION = Calibration.countsPerGramForce(437.25, START);

  private static final String CREATE =
      "CREATE TABLE traces (cut INTEGER, sample INTEGER, t_s REAL, counts INTEGER, force_n REAL)";

  private final Path directory;
  private final int cuts;

  private ExchangeBenchmark(Path directory, int cuts) {
    this.directory = directory;
    this.cuts = cuts;
  }

  public static void main(String[] args) throws Exception {
    Path directory = Files.createTempDirectory(Path.of(args[0]), "snick-export");
    ExchangeBenchmark benchmark = new ExchangeBenchmark(directory, Integer.parseInt(args[1]));
    benchmark.fill();
    Path last = directory.resolve("package0");
    double[] ours = new double[Integer.parseInt(args[2])];
    for (int i = 0; i < ours.length; i++) {
      last = directory.resolve("package" + i);
      ours[i] = benchmark.export(last);
    }
    double[] theirs = benchmark.sqlitePrints(last, ours.length);
    double[] oursIn = new double[ours.length];
    double[] theirsIn = new double[ours.length];
    for (int i = 0; i < ours.length; i++) {
      oursIn[i] = benchmark.importInto(directory.resolve("theirs" + i), last);
      theirsIn[i] = benchmark.sqliteImports(directory.resolve("rows" + i + ".db"), last);
    }
    System.out.printf(
        Locale.ROOT,
        "%d cuts, %d MB of traces.csv, medians of %d, fastest in brackets%n",
        benchmark.cuts,
        Files.size(last.resolve("traces.csv")) >> 20,
        ours.length);
    report("export", ours, theirs);
    report("import with check", oursIn, theirsIn);
    System.out.printf(Locale.ROOT, "largest heap %d MB%n", heapMegabytes());
  }

  private static void report(String what, double[] ours, double[] theirs) {
    System.out.printf(
        Locale.ROOT,
        "%s %.2f s (%.2f), sqlite3 %.2f s (%.2f), ratio %.2f%n",
        what,
        median(ours),
        Arrays.stream(ours).min().orElseThrow(),
        median(theirs),
        Arrays.stream(theirs).min().orElseThrow(),
        median(ours) / median(theirs));
  }

  private void fill() {
    try (Store store = Store.open(directory.resolve("store"), java.time.Clock.systemUTC())) {
      store.takeIn(new Origin("bench", "0".repeat(64), "bench", ""), this::fill);
    }
  }

  private void fill(Intake intake) {
    intake.calibration(CALIBRATION, Optional.empty());
    long recording =
        intake.recording(
            new Recording(
                "00a1b2c3d4e5f607",
                "bench",
                "bench",
                Recording.Form.BINARY,
                START,
                OptionalInt.of(128),
                Optional.of(new SampleRate(80)),
                0),
            Optional.empty());
    SplittableRandom random = new SplittableRandom(1);
    for (int number = 1; number <= cuts; number++) {
      Cut cut = cut(number, random);
      intake.cut(
          NewCut.of(recording, START.plusSeconds(10L * number), cut)
              .with(
                  new CutForce(
                      CALIBRATION.derive(57_000, 20),
                      Force.ofNewtons(CALIBRATION.newtons(56_000)))),
          Cut.DETECTOR_VERSION,
          List.of());
    }
  }

  private static Cut cut(int number, SplittableRandom random) {
    long[] nanos = new long[SAMPLES];
    int[] counts = new int[SAMPLES];
    for (int i = 0; i < SAMPLES; i++) {
      nanos[i] = 10_000_000_000L * number + 12_500_000L * i + 1_000L * random.nextInt(20);
      int ramp = i < 240 || i > 560 ? 0 : 175 * (i - 240);
      counts[i] = -812 + ramp + random.nextInt(-120, 121);
    }
    return new Cut(
        number,
        new CutFigures(
            Outcome.SEVERED,
            1,
            nanos[240],
            OptionalLong.of(nanos[560]),
            Optional.of(new Peak(56_000, 57_000, 20)),
            new CutFigures.Shape(14_000, 12_000_000, 0, 320),
            new CutFigures.Rest(-812.25, -811.5, 60),
            Set.of()),
        new Trace(nanos, counts, new boolean[SAMPLES], List.of()));
  }

  private double export(Path target) throws IOException {
    long begin = System.nanoTime();
    try (StoreReader reader = StoreReader.open(directory.resolve("store"))) {
      new PackageExport(reader, ExportChoice.of(CutSelection.all()), Watch.NONE).toFolder(target);
    }
    return (System.nanoTime() - begin) / 1e9;
  }

  private double importInto(Path data, Path exported) throws IOException {
    long begin = System.nanoTime();
    try (Store store = Store.open(data, java.time.Clock.systemUTC())) {
      PackageImport.Result result =
          new PackageImport(exported, Optional.empty(), Watch.NONE).into(store, true);
      if (result.stored().orElseThrow().newCuts() != cuts) {
        throw new IOException("not all cuts were stored");
      }
    }
    return (System.nanoTime() - begin) / 1e9;
  }

  private double sqliteImports(Path database, Path exported)
      throws IOException, InterruptedException {
    Path none = Path.of("/dev/null");
    run(none, database, "PRAGMA journal_mode = WAL");
    long begin = System.nanoTime();
    run(none, database, CREATE, importing(exported, "traces"), importing(exported, "cuts"));
    return (System.nanoTime() - begin) / 1e9;
  }

  private static String importing(Path exported, String table) {
    return ".import --csv "
        + (table.equals("traces") ? "--skip 1 " : "")
        + exported.resolve(table + ".csv")
        + " "
        + table;
  }

  private double[] sqlitePrints(Path exported, int repeats)
      throws IOException, InterruptedException {
    Path database = directory.resolve("rows.db");
    run(Path.of("/dev/null"), database, CREATE, importing(exported, "traces"));
    double[] seconds = new double[repeats];
    for (int i = 0; i < repeats; i++) {
      long begin = System.nanoTime();
      run(directory.resolve("sqlite.csv"), database, "SELECT * FROM traces");
      seconds[i] = (System.nanoTime() - begin) / 1e9;
    }
    return seconds;
  }

  private static void run(Path out, Path database, String... commands)
      throws IOException, InterruptedException {
    List<String> line = new ArrayList<>(List.of("sqlite3", "-csv", "-header"));
    line.add(database.toString());
    line.addAll(List.of(commands));
    Process process =
        new ProcessBuilder(line)
            .redirectOutput(out.toFile())
            .redirectError(ProcessBuilder.Redirect.INHERIT)
            .start();
    if (process.waitFor() != 0) {
      throw new IOException("sqlite3 failed: " + line);
    }
  }

  private static double median(double[] values) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    return sorted[sorted.length / 2];
  }

  private static long heapMegabytes() {
    return ManagementFactory.getMemoryPoolMXBeans().stream()
            .filter(pool -> pool.getType() == MemoryType.HEAP)
            .map(MemoryPoolMXBean::getPeakUsage)
            .mapToLong(usage -> usage.getUsed())
            .sum()
        >> 20;
  }
}
