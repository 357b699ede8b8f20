package snick.exchange;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.lang.management.MemoryPoolMXBean;
import java.lang.management.MemoryType;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Set;
import java.util.SplittableRandom;
import snick.cut.Cut;
import snick.cut.Outcome;
import snick.cut.Peak;
import snick.cut.Trace;
import snick.force.Calibration;
import snick.quantity.Force;
import snick.quantity.SampleRate;
import snick.store.CutForce;
import snick.store.CutSelection;
import snick.store.Intake;
import snick.store.NewCut;
import snick.store.Origin;
import snick.store.Recording;
import snick.store.Store;
import snick.store.StoreReader;

/**
 * Exports many cuts and lets the {@code sqlite3} command print the same rows of samples as CSV,
 * from a table of them. Prints seconds, ratio, sizes and the largest heap. Arguments: a directory
 * that may be filled, number of cuts (600 samples each), repeats.
 */
final class ExportBenchmark {
  private static final int SAMPLES = 600;
  private static final Instant START = Instant.parse("2026-05-04T12:00:00Z");
  private static final Calibration CALIBRATION = Calibration.countsPerGramForce(437.25, START);

  private final Path directory;
  private final int cuts;

  private ExportBenchmark(Path directory, int cuts) {
    this.directory = directory;
    this.cuts = cuts;
  }

  public static void main(String[] args) throws Exception {
    Path directory = Files.createTempDirectory(Path.of(args[0]), "snick-export");
    ExportBenchmark benchmark = new ExportBenchmark(directory, Integer.parseInt(args[1]));
    benchmark.fill();
    Path last = directory.resolve("package0");
    double[] ours = new double[Integer.parseInt(args[2])];
    for (int i = 0; i < ours.length; i++) {
      last = directory.resolve("package" + i);
      ours[i] = benchmark.export(last);
    }
    double[] theirs = benchmark.sqlite(last.resolve("traces.csv"), ours.length);
    double imported = benchmark.importInto(last);
    System.out.printf(
        Locale.ROOT,
        "%d cuts, %d MB of traces.csv: export %.2f s, sqlite3 %.2f s, ratio %.2f (medians of %d);"
            + " import with check %.2f s; largest heap %d MB%n",
        benchmark.cuts,
        Files.size(last.resolve("traces.csv")) >> 20,
        median(ours),
        median(theirs),
        median(ours) / median(theirs),
        ours.length,
        imported,
        heapMegabytes());
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
          Cut.DETECTOR_VERSION);
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
        Outcome.SEVERED,
        1,
        nanos[240],
        OptionalLong.of(nanos[560]),
        Optional.of(new Peak(56_000, 57_000, 20)),
        new Cut.Shape(14_000, 12_000_000, 0, 320),
        new Cut.Rest(-812.25, -811.5, 60),
        Set.of(),
        new Trace(nanos, counts, new boolean[SAMPLES], List.of()));
  }

  private double export(Path target) throws IOException {
    long begin = System.nanoTime();
    try (StoreReader reader = StoreReader.open(directory.resolve("store"))) {
      new PackageExport(reader, ExportChoice.of(CutSelection.all()), Watch.NONE).toFolder(target);
    }
    return (System.nanoTime() - begin) / 1e9;
  }

  private double importInto(Path exported) throws IOException {
    long begin = System.nanoTime();
    try (Store store = Store.open(directory.resolve("theirs"), java.time.Clock.systemUTC())) {
      new PackageImport(exported, Optional.empty(), Watch.NONE).into(store, true);
    }
    return (System.nanoTime() - begin) / 1e9;
  }

  private double[] sqlite(Path csv, int repeats) throws IOException, InterruptedException {
    Path database = directory.resolve("rows.db");
    run(
        Path.of("/dev/null"),
        database,
        "CREATE TABLE traces (cut INTEGER, sample INTEGER, t_s REAL, counts INTEGER, force_n REAL)");
    run(Path.of("/dev/null"), database, ".import --csv --skip 1 " + csv + " traces");
    double[] seconds = new double[repeats];
    for (int i = 0; i < repeats; i++) {
      long begin = System.nanoTime();
      run(directory.resolve("sqlite.csv"), database, "SELECT * FROM traces");
      seconds[i] = (System.nanoTime() - begin) / 1e9;
    }
    return seconds;
  }

  private static void run(Path out, Path database, String sql)
      throws IOException, InterruptedException {
    Process process =
        new ProcessBuilder("sqlite3", "-csv", "-header", database.toString(), sql)
            .redirectOutput(out.toFile())
            .redirectError(ProcessBuilder.Redirect.INHERIT)
            .start();
    if (process.waitFor() != 0) {
      throw new IOException("sqlite3 failed: " + sql);
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
