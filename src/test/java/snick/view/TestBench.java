package snick.view;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import snick.cut.Cut;
import snick.cut.CutFigures;
import snick.cut.Outcome;
import snick.cut.Peak;
import snick.cut.Trace;
import snick.force.budget.Calibration;
import snick.force.reading.RigSetting;
import snick.frame.message.Hello;
import snick.frame.message.Tally;
import snick.live.BenchState;
import snick.live.LiveTrace;
import snick.live.NextSpot;
import snick.live.RigState;
import snick.live.RigTap;
import snick.phrase.Words;
import snick.quantity.SampleRate;
import snick.sample.StreamFacts;
import snick.store.Store;
import snick.store.record.CutForce;
import snick.store.record.NewCut;
import snick.store.record.Recording;
import snick.view.bench.Bench;
import snick.view.bench.PortHere;
import snick.view.bench.Preferences;
import snick.view.bench.RigMetrics;
import snick.view.http.Doorkeeper;
import snick.view.http.PageReach;

/** A page on a real store, with a rig that is only a record. Invented figures. */
public final class TestBench implements AutoCloseable {
  static final Instant STARTED = Instant.parse("2026-05-04T12:00:00Z");
  static final String DEVICE = "00a1b2c3d4e5f607";

  private static final double COUNTS_PER_GRAM_FORCE = 437.25;
  private static final long LOOK_NANOS = 1_000_000;

  final Calibration calibration =
      Calibration.countsPerGramForce(COUNTS_PER_GRAM_FORCE, STARTED.minusSeconds(3600));
  public final LiveTrace trace = new LiveTrace();
  final List<String> said = Collections.synchronizedList(new ArrayList<>());
  final RigTap tap = new RigTap(said::add);
  final NextSpot nextSpot = new NextSpot();
  final List<String> complaints = Collections.synchronizedList(new ArrayList<>());
  public final BenchPage page;
  final HttpClient client = HttpClient.newHttpClient();

  /** What the rig says of itself; empty: nothing yet. */
  volatile Optional<RigSetting> setting = Optional.empty();

  private final Path runFolder;
  private final Store keeper;
  private final Bench bench;
  private final long recording;
  private int cuts;

  public TestBench(Path folder) throws IOException {
    this(folder, PageReach.loopback());
  }

  public TestBench(Path folder, PageReach reach) throws IOException {
    this(folder, reach, Preferences.NONE);
  }

  TestBench(Path folder, PageReach reach, Preferences preferences) throws IOException {
    runFolder = folder.resolve("run");
    keeper = Store.open(folder.resolve("data"), Clock.systemUTC());
    keeper.add(calibration, Optional.empty());
    recording =
        keeper.startRecording(
            new Recording(
                DEVICE,
                "sketch <b>1</b>",
                "/dev/ttyUSB0",
                Recording.Form.BINARY,
                STARTED,
                OptionalInt.of(128),
                Optional.of(new SampleRate(80)),
                0));
    bench =
        new Bench(
            TestBench::state,
            new RigMetrics(1, TestBench::state, "test"),
            new Bench.Rigs(
                List.of(trace),
                List.of(tap),
                new Bench.Scales(
                    rig -> Optional.of(calibration), rig -> setting, (made, rig) -> {}),
                () ->
                    List.of(
                        new PortHere("/dev/ttyUSB0", "a board"), new PortHere("/dev/ttyUSB1", ""))),
            Bench.Doors.open(folder.resolve("data"), Clock.systemUTC()),
            nextSpot,
            complaint -> complaints.add(Words.english().say(complaint)),
            Clock.systemUTC(),
            preferences);
    page = BenchPage.start(new BenchPage.Settings(reach, 0, runFolder), bench);
  }

  static BenchState state() {
    RigState rig =
        new RigState(
            0,
            "/dev/ttyUSB0",
            RigState.Link.RECORDING,
            Optional.of(
                new Hello(1, Long.parseLong(DEVICE, 16), "sketch 1", 24, 128, 80_000, 20_000_000)),
            Optional.of(DEVICE),
            new RigState.Clock(OptionalDouble.of(80), OptionalDouble.empty()),
            new RigState.Signal(Optional.of(new RigState.Rest(84_210, 65)), false, true),
            new RigState.Traffic(StreamFacts.NONE, Tally.NONE));
    return new BenchState(STARTED, List.of(rig), true, 0, List.of());
  }

  /** Stores a cut of {@code gramForce} as the keeper does, and announces it. */
  public long cut(double gramForce) {
    cuts++;
    Peak peak = new Peak(gramForce * 430, gramForce * COUNTS_PER_GRAM_FORCE, 20);
    Cut cut =
        new Cut(
            cuts,
            new CutFigures(
                Outcome.SEVERED,
                1,
                1_000_000_000L,
                OptionalLong.of(2_000_000_000L),
                Optional.of(peak),
                new CutFigures.Shape(40_000, 1_500_000, 0, 70),
                new CutFigures.Rest(84_210, 84_210, 65),
                Set.of()),
            new Trace(
                new long[] {0, 12_500_000}, new int[] {84_210, 90_000}, new boolean[2], List.of()));
    OptionalDouble place = nextSpot.get();
    long id =
        keeper.append(
            NewCut.of(recording, Instant.now(), cut)
                .with(
                    new CutForce(
                        calibration.derive(peak.estimateCounts(), 20),
                        calibration.force(peak.observedMaxCounts(), 0).value()))
                .inRunningStage(place));
    nextSpot.used(place);
    page.announced(0, 1, id);
    return id;
  }

  String address(String path) {
    return "http://127.0.0.1:" + page.portNumber() + path;
  }

  String token() throws IOException {
    return Files.readString(tokenFile()).strip();
  }

  Path tokenFile() {
    return runFolder.resolve("page-" + page.portNumber() + ".token");
  }

  public HttpResponse<String> get(String path) throws IOException, InterruptedException {
    return client.send(
        HttpRequest.newBuilder(URI.create(address(path))).build(),
        HttpResponse.BodyHandlers.ofString());
  }

  HttpResponse<String> post(String path, String json) throws IOException, InterruptedException {
    return client.send(change(path, json).build(), HttpResponse.BodyHandlers.ofString());
  }

  /** A change as the page sends it. */
  HttpRequest.Builder change(String path, String json) throws IOException {
    return HttpRequest.newBuilder(URI.create(address("/api/v1/" + path)))
        .header("Content-Type", "application/json")
        .header(Doorkeeper.TOKEN_HEADER, token())
        .POST(HttpRequest.BodyPublishers.ofString(json));
  }

  /** Waits until {@code condition} holds, at most ten seconds. */
  public static void await(String what, Condition condition) throws Exception {
    long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(10);
    while (!condition.holds()) {
      if (System.nanoTime() > end) {
        throw new AssertionError("not within 10 s: " + what);
      }
      LockSupport.parkNanos(LOOK_NANOS);
    }
  }

  /** Something that becomes true. */
  public interface Condition {
    boolean holds() throws Exception;
  }

  @Override
  public void close() {
    page.close();
    bench.doors().close();
    keeper.close();
  }
}
