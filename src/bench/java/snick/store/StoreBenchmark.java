package snick.store;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.IntConsumer;
import java.util.stream.IntStream;
import snick.journal.Blade;
import snick.journal.Session;
import snick.journal.Session.Equipment;
import snick.journal.Stage;
import snick.store.database.Database;
import snick.store.database.Migrations;
import snick.store.database.StoreFile;
import snick.store.record.CutSelection;
import snick.store.record.Derivation;
import snick.store.record.NewCut;
import snick.store.table.CutTable;
import snick.store.table.SessionTable;

/**
 * Appends with a commit each, then times what people look at as the store grows. Prints one line a
 * size. Arguments: a directory that may be filled, then the numbers of cuts in rising order.
 *
 * <p>Cuts beyond the first thousand of each size are put in within large transactions, so that a
 * million takes minutes.
 */
final class StoreBenchmark {
  private static final int COMMITTED_EACH = 1_000;
  private static final int CUTS_A_STAGE = 10;
  private static final int STAGES_A_SESSION = 5;
  private static final int REPEATS = 200;

  private final Path directory;
  private final Database database;
  private final Store store;
  private final long recording;
  private int cuts;
  private int sessions;

  private StoreBenchmark(Path directory) {
    this.directory = directory;
    database = Database.writer(StoreFile.create(directory));
    new Migrations(database).runTo(Migrations.VERSION);
    database.writeAheadLog();
    store = new Store(database, Clock.systemUTC());
    store.journal().add(Blade.labelled("bench blade"));
    recording = store.startRecording(Examples.recording());
  }

  public static void main(String[] args) throws Exception {
    Path directory = Files.createTempDirectory(Path.of(args[0]), "snick-bench");
    StoreBenchmark benchmark = new StoreBenchmark(directory);
    System.out.println(
        "cuts, append+commit ms p50, p99, latest 50 ms, stage of 10 ms, stage log ms, one cut ms,"
            + " open ms, file MB");
    for (String size : List.of(args).subList(1, args.length)) {
      benchmark.measureAt(Integer.parseInt(size));
    }
    benchmark.store.close();
  }

  private void measureAt(int size) throws Exception {
    grow(size - COMMITTED_EACH);
    double[] appends = times(COMMITTED_EACH, i -> append());
    String session = "session " + sessions / 2;
    try (StoreReader reader = StoreReader.open(directory)) {
      CutSelection stage = CutSelection.all().inStage(session, new Stage(1, "stage 1"));
      System.out.printf(
          Locale.ROOT,
          "%d, %.2f, %.2f, %.2f, %.2f, %.2f, %.2f, %.1f, %d%n",
          cuts,
          quantile(appends, 0.5),
          quantile(appends, 0.99),
          median(i -> require(reader.latest(CutSelection.all(), 50).size() == 50)),
          median(i -> require(reader.latest(stage, 50).size() == CUTS_A_STAGE)),
          median(i -> require(reader.journal().log(session).isPresent())),
          median(i -> require(reader.cut(1L + (long) i * cuts / REPEATS).isPresent())),
          median(i -> StoreReader.open(directory).close()),
          Files.size(StoreFile.in(directory)) >> 20);
    }
  }

  private void grow(int size) {
    while (cuts < size) {
      int last = Math.min(size, cuts + 10_000);
      database.write(
          () -> {
            IntStream.range(cuts, last).forEach(i -> place(new CutTable(database), i));
            return null;
          });
    }
  }

  private void append() {
    openWhenDue();
    int number = cuts + 1;
    store.append(
        NewCut.of(recording, at(number), Examples.severed(number))
            .inRunningStage(OptionalDouble.of(number % CUTS_A_STAGE)));
    cuts = number;
  }

  /** As {@link #append}, within the transaction that runs. */
  private void place(CutTable table, int index) {
    int number = index + 1;
    Instant at = at(number);
    NewCut cut = NewCut.of(recording, at, Examples.severed(number));
    long id = table.add(cut, new Derivation(1, at, cut.cut()));
    if (index % (CUTS_A_STAGE * STAGES_A_SESSION) == 0) {
      nextSession(new SessionTable(database), at);
    }
    if (index % CUTS_A_STAGE == 0) {
      nextStage(new SessionTable(database), index);
    }
    store.journal().land(Examples.recording().deviceId(), id, at, OptionalDouble.empty());
    cuts = number;
  }

  private void openWhenDue() {
    database.write(
        () -> {
          if (cuts % (CUTS_A_STAGE * STAGES_A_SESSION) == 0) {
            nextSession(new SessionTable(database), at(cuts));
          }
          if (cuts % CUTS_A_STAGE == 0) {
            nextStage(new SessionTable(database), cuts);
          }
          return null;
        });
  }

  private void nextSession(SessionTable table, Instant at) {
    if (sessions > 0) {
      table.close("session " + sessions, at);
    }
    sessions++;
    table.open(
        new Session(
            "session " + sessions,
            "bench blade",
            new Equipment(Optional.empty(), Optional.empty(), Optional.empty()),
            OptionalDouble.empty(),
            Optional.empty(),
            at,
            Optional.empty()),
        at);
  }

  private void nextStage(SessionTable table, int index) {
    int order = 1 + index / CUTS_A_STAGE % STAGES_A_SESSION;
    table.begin("session " + sessions, new Stage(order, "stage " + order));
  }

  private static Instant at(int number) {
    return Examples.NOON.plusSeconds(number);
  }

  private static void require(boolean held) {
    if (!held) {
      throw new IllegalStateException("a read did not give what was stored");
    }
  }

  private static double median(IntConsumer work) {
    return quantile(times(REPEATS, work), 0.5);
  }

  /** Milliseconds of each call. */
  private static double[] times(int repeats, IntConsumer work) {
    List<Double> millis = new ArrayList<>();
    for (int i = 0; i < repeats; i++) {
      long start = System.nanoTime();
      work.accept(i);
      millis.add((System.nanoTime() - start) / 1e6);
    }
    return millis.stream().mapToDouble(Double::doubleValue).sorted().toArray();
  }

  private static double quantile(double[] sorted, double share) {
    return sorted[(int) Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
  }
}
