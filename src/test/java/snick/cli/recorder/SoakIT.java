package snick.cli.recorder;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.locks.LockSupport;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.cli.Jar;
import snick.cli.Live;
import snick.store.StoreReader;
import snick.store.record.CutSelection;
import snick.virtualrig.FaultyRig;
import snick.virtualrig.FaultyScript;
import snick.virtualrig.LongScript;
import snick.virtualrig.ServedRig;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.line.Pacer;
import snick.virtualrig.line.PseudoTerminal;
import snick.virtualrig.settings.Altered;
import snick.virtualrig.settings.RigSettings;

/**
 * The shipped jar records from rigs far faster than real time: every sample that a rig numbered was
 * read or is reported lost, every cut made is stored once with the very samples that the rig sent,
 * and the process does not grow. Three sides are asked, each on its own: the rigs what they sent,
 * the recorder's metrics what it read and missed, the store what it holds.
 *
 * <p>A week of one rig at 1,000 times its speed, eleven minutes: {@code mvn verify -Dit.test=SoakIT
 * -Dsnick.soak.rigs=1 -Dsnick.soak.speed=1000 -Dsnick.soak.hours=168}.
 */
class SoakIT {
  private static final int RIGS = Integer.getInteger("snick.soak.rigs", 2);
  private static final int SPEED = Integer.getInteger("snick.soak.speed", 250);
  private static final double HOURS =
      Double.parseDouble(System.getProperty("snick.soak.hours", "0.3"));
  private static final double QUIET_WALL_SECONDS = 4;
  private static final double EVERY_SECONDS = 30;
  private static final int CUTS = (int) (HOURS * 3600 / EVERY_SECONDS);
  private static final FaultyScript SCRIPT =
      LongScript.counted(QUIET_WALL_SECONDS * SPEED, EVERY_SECONDS, CUTS);
  private static final Pattern PAGE = Pattern.compile("http://127\\.0\\.0\\.1:\\d+");
  private static final HttpClient CLIENT = HttpClient.newHttpClient();

  @TempDir Path folder;
  private final List<FaultyRig> rigs = new ArrayList<>();
  private final List<AtomicLong> made = new ArrayList<>();

  @AfterEach
  void takeAway() {
    rigs.forEach(ServedRig::close);
  }

  @Test
  void whatWasSentIsStoredOrReportedLostAndNothingGrows() throws Exception {
    for (int i = 0; i < RIGS; i++) {
      serve(i);
    }
    CompletableFuture<Void> done = perform();
    try (Live run = record()) {
      Matcher page = PAGE.matcher(run.await("http://127.0.0.1"));
      assertThat(page.find()).isTrue();
      List<Footprint> footprints = watch(run.pid(), done);
      String metrics = settledMetrics(page.group());
      for (int i = 0; i < RIGS; i++) {
        requireAccounted(i, metrics);
      }
      Footprint.requireFlat(footprints);
      assertThat(run.terminate()).isNotNegative();
    }

    requireStored();
  }

  private void serve(int number) throws IOException {
    AtomicLong cuts = new AtomicLong();
    made.add(cuts);
    rigs.add(
        FaultyRig.serve(
            rig(number),
            PseudoTerminal.publishedAs(folder.resolve("rig-" + number)),
            Pacer.of(System::nanoTime, SPEED),
            VirtualRig.WhenFull.WAIT,
            truth -> cuts.incrementAndGet()));
  }

  private static VirtualRig rig(int number) {
    RigSettings usual = RigSettings.USUAL;
    return new VirtualRig(
        usual.with(Altered.withDeviceId(usual.device(), usual.device().deviceId() + number)),
        number + 1);
  }

  private Live record() throws IOException {
    List<String> words = new ArrayList<>(List.of("run"));
    rigs.forEach(rig -> words.add(rig.port()));
    words.addAll(List.of("--http", "0", "--counts-per-gf", "437.25"));
    words.addAll(List.of("--data", folder.resolve("data").toString()));
    return Jar.onThisJava("-Xmx96m").start(words.toArray(String[]::new));
  }

  /** Asked for before anybody listens, so that the rigs do nothing else before. */
  private CompletableFuture<Void> perform() {
    return CompletableFuture.allOf(
        rigs.stream().map(rig -> rig.perform(SCRIPT)).toArray(CompletableFuture[]::new));
  }

  /** Looks at the process every second until all rigs have done their cuts. */
  private static List<Footprint> watch(long process, CompletableFuture<Void> done)
      throws IOException, InterruptedException, ExecutionException {
    List<Footprint> footprints = new ArrayList<>();
    do {
      footprints.add(Footprint.of(process));
    } while (!doneWithinASecond(done));
    return footprints;
  }

  private static boolean doneWithinASecond(CompletableFuture<Void> work)
      throws InterruptedException, ExecutionException {
    try {
      work.get(1, TimeUnit.SECONDS);
      return true;
    } catch (TimeoutException goesOn) {
      return false;
    }
  }

  /** The metrics once they stand still: the rigs send nothing any more. */
  private static String settledMetrics(String page) throws IOException, InterruptedException {
    String before = "";
    String now = samples(metrics(page));
    while (!now.equals(before)) {
      LockSupport.parkNanos(500_000_000);
      before = now;
      now = samples(metrics(page));
    }
    return metrics(page);
  }

  private static String metrics(String page) throws IOException, InterruptedException {
    HttpRequest request = HttpRequest.newBuilder(URI.create(page + "/metrics")).build();
    return CLIENT.send(request, HttpResponse.BodyHandlers.ofString()).body();
  }

  private static String samples(String metrics) {
    return metrics.lines().filter(line -> line.startsWith("snick_samples_")).toList().toString();
  }

  private static long value(String metrics, String name, int rig) {
    String start = name + "{rig=\"" + rig + "\"} ";
    return metrics
        .lines()
        .filter(line -> line.startsWith(start))
        .mapToLong(line -> (long) Double.parseDouble(line.substring(start.length())))
        .findFirst()
        .orElseThrow();
  }

  private void requireAccounted(int rig, String metrics) {
    long read = value(metrics, "snick_samples_total", rig);
    long lost = value(metrics, "snick_samples_lost_total", rig);
    long sent = rigs.get(rig).sent().samples();
    System.out.printf(
        "soak, rig %d: %d samples sent, %d read, %d reported lost, %d cuts made%n",
        rig, sent, read, lost, made.get(rig).get());

    assertThat(read + lost).isEqualTo(sent);
    assertThat(lost).isPositive();
    assertThat(made.get(rig).get()).isEqualTo(CUTS);
  }

  /** Every cut is there once, with the very samples that a rig of the same seed sends. */
  private void requireStored() {
    try (StoreReader store = StoreReader.open(folder.resolve("data"))) {
      assertThat(store.count(CutSelection.all())).isEqualTo((long) RIGS * CUTS);
      for (int i = 0; i < RIGS; i++) {
        String device = String.format("%016x", rig(i).settings().device().deviceId());
        SentAgain sent = new SentAgain(store, device);
        sent.play(rig(i), SCRIPT);
        assertThat(sent.tracesFound()).isEqualTo(CUTS);
      }
    }
  }
}
