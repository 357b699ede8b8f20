package snick.view.http;

import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalInt;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import snick.daemon.Pipeline;
import snick.daemon.Recorder;
import snick.daemon.Scale;
import snick.daemon.link.RigInUseException;
import snick.force.budget.Calibration;
import snick.live.RigState;
import snick.port.PortAddress;
import snick.virtualrig.ServedRig;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.line.Pacer;
import snick.virtualrig.script.Action;
import snick.virtualrig.script.Script;
import snick.virtualrig.settings.RigSettings;

/**
 * Twenty viewers and one that takes nothing, on a virtual rig in real time: is anything lost, does
 * memory stay flat? Argument: minutes, ten unless given. Prints a line every half minute.
 *
 * <pre>
 * mvn -q test-compile dependency:build-classpath -Dmdep.outputFile=target/classpath
 * java -Xmx256m -cp target/classes:target/test-classes:$(cat target/classpath) snick.view.http.ViewerSoak 10
 * </pre>
 */
public final class ViewerSoak {
  private static final int VIEWERS = 20;
  private static final int CUTS = 1_000;
  private static final Script CUT =
      Script.of(new Action.Rest(0.8), Action.Cut.ofGramForce(120, 110));

  private final AtomicLong heardCuts = new AtomicLong();
  private final AtomicLong heardBytes = new AtomicLong();
  private final AtomicLong truths = new AtomicLong();
  private final AtomicLong stored = new AtomicLong();
  private final List<Double> commitMillis = new ArrayList<>();
  private int portNumber;

  private ViewerSoak() {}

  /** Runs. */
  public static void main(String[] arguments) throws Exception {
    new ViewerSoak().run(arguments.length == 0 ? 10 : Double.parseDouble(arguments[0]));
  }

  private void run(double minutes) throws IOException, RigInUseException, InterruptedException {
    Path folder = Files.createTempDirectory("viewer-soak");
    try (ServedRig rig =
            new VirtualRig(RigSettings.USUAL, 1)
                .serveOnTcp(
                    0,
                    Pacer.of(System::nanoTime, 1),
                    VirtualRig.WhenFull.DROP,
                    truth -> truths.incrementAndGet());
        Recorder recorder = record(rig.port(), folder)) {
      portNumber = recorder.httpPort().orElseThrow();
      CompletableFuture<Void> cutting = rig.perform(CUT.times(CUTS));
      for (int i = 0; i < VIEWERS; i++) {
        start("viewer-" + i, this::watch);
      }
      start("asleep", this::sleep);
      long end = System.nanoTime() + (long) (minutes * 60e9);
      while (System.nanoTime() < end && !cutting.isDone()) {
        TimeUnit.SECONDS.sleep(30);
        tell(recorder);
      }
    }
  }

  private Recorder record(String port, Path folder) throws IOException, RigInUseException {
    return Recorder.start(
        new Recorder.Settings(
            List.of(PortAddress.parse(port)),
            115_200,
            Pipeline.Settings.defaults(),
            folder.resolve("data"),
            folder.resolve("run"),
            OptionalInt.of(0),
            "soak"),
        recording -> Scale.by(Calibration.countsPerGramForce(437.25, Instant.EPOCH)),
        new Recorder.Audience(
            cut -> {
              stored.incrementAndGet();
              synchronized (commitMillis) {
                commitMillis.add(cut.latencyNanos() / 1e6);
              }
            },
            word -> System.out.println(word)),
        Clock.systemUTC());
  }

  private static void start(String name, Runnable task) {
    Thread thread = new Thread(task, name);
    thread.setDaemon(true);
    thread.start();
  }

  private Socket open() throws IOException {
    Socket socket = new Socket(InetAddress.getLoopbackAddress(), portNumber);
    socket
        .getOutputStream()
        .write(
            "GET /api/v1/events HTTP/1.1\r\nHost: localhost\r\n\r\n"
                .getBytes(StandardCharsets.US_ASCII));
    return socket;
  }

  private void watch() {
    byte[] buffer = new byte[1 << 16];
    try (Socket socket = open()) {
      InputStream in = socket.getInputStream();
      for (int n = in.read(buffer); n >= 0; n = in.read(buffer)) {
        heardBytes.addAndGet(n);
        String text = new String(buffer, 0, n, StandardCharsets.UTF_8);
        heardCuts.addAndGet(text.split("event: cut\n", -1).length - 1L);
      }
    } catch (IOException e) {
      System.out.println(Thread.currentThread().getName() + " ended: " + e.getMessage());
    }
  }

  /** Takes nothing, and comes back every two minutes. */
  private void sleep() {
    try {
      while (true) {
        try (Socket socket = open()) {
          TimeUnit.MINUTES.sleep(2);
          System.out.println(
              "the sleeper leaves port " + socket.getLocalPort() + " and comes back");
        }
      }
    } catch (IOException | InterruptedException e) {
      System.out.println("the sleeper ended: " + e.getMessage());
    }
  }

  private void tell(Recorder recorder) {
    System.gc();
    Runtime runtime = Runtime.getRuntime();
    double heapMegabytes = (runtime.totalMemory() - runtime.freeMemory()) / 1e6;
    RigState rig = recorder.state().rigs().get(0);
    System.out.printf(
        Locale.ROOT,
        "%s heap %.1f MB, threads %d, samples %d, lost %d, cuts made %d, stored %d, heard %d,"
            + " median to commit %.1f ms, heard %.0f kB%n",
        Instant.now(),
        heapMegabytes,
        Thread.activeCount(),
        rig.traffic().facts().samples(),
        rig.traffic().facts().lost().samples(),
        truths.get(),
        stored.get(),
        heardCuts.get(),
        median(),
        heardBytes.get() / 1e3);
  }

  private double median() {
    synchronized (commitMillis) {
      return commitMillis.stream().sorted().skip(commitMillis.size() / 2).findFirst().orElse(0.0);
    }
  }
}
