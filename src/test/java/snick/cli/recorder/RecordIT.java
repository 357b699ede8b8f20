package snick.cli.recorder;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.cli.Jar;
import snick.cli.Live;
import snick.cli.terminal.ExitCode;
import snick.virtualrig.Fault;
import snick.virtualrig.FaultyRig;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.script.Action;
import snick.virtualrig.script.Script;
import snick.virtualrig.settings.RigSettings;

/** The shipped jar records from a pseudo-terminal, whatever happens to the cable. */
class RecordIT {
  private static final long PATIENCE_SECONDS = 60;
  private static final HttpClient CLIENT = HttpClient.newHttpClient();
  private static final Pattern PAGE = Pattern.compile("http://127\\.0\\.0\\.1:\\d+");

  @TempDir Path folder;
  private FaultyRig rig;

  @BeforeEach
  void serve() throws Exception {
    rig = FaultyRig.serve(new VirtualRig(RigSettings.USUAL, 7), folder.resolve("rig"), 1);
  }

  @AfterEach
  void takeAway() {
    rig.close();
  }

  @Test
  void aCutInFlightIsKeptOnSigterm() throws Exception {
    try (Live run = record()) {
      run.await("http://127.0.0.1");
      rig.perform(Script.of(new Action.Rest(3), Action.Cut.ofGramForce(100, 100))).join();
      run.await("\"severed\"");
      CompletableFuture<Void> slow =
          rig.perform(Script.of(new Action.Rest(1), Action.Cut.ofGramForce(1000, 100)));
      awaitSamples(3 * 80);
      run.terminate();
      assertThat(slow).isNotDone();
    }

    assertThat(outcomes()).containsExactly("truncated", "severed");
  }

  @Test
  void anUnpluggedRigIsTakenUpAgainAndTheGapIsKnown() throws Exception {
    try (Live run = record()) {
      String page = page(run.await("http://127.0.0.1"));
      rig.perform(Script.of(new Action.Rest(3), Action.Cut.ofGramForce(100, 100))).join();
      run.await("\"severed\"");
      rig.inject(new Fault.HangUp(1));
      run.await("went away");
      run.await("is back");
      rig.perform(Script.of(new Action.Rest(3), Action.Cut.ofGramForce(120, 100))).join();
      run.await("\"severed\"");

      Map<?, ?> rigHealth = (Map<?, ?>) ((List<?>) health(page).get("rigs")).get(0);
      assertThat(rigHealth.get("reopened")).isEqualTo(1);
      assertThat(health(page).get("recording")).isEqualTo(true);
      assertThat(get(page + "/metrics")).contains("snick_link_reopened_total{rig=\"0\"} 1.0");
      run.terminate();
    }

    assertThat(outcomes()).containsExactly("severed", "severed");
  }

  @Test
  void aSecondRecorderOnTheSameRigIsRefused() throws Exception {
    try (Live run = record()) {
      run.await("http://127.0.0.1");
      Jar.Done second =
          Jar.onThisJava()
              .run("run", rig.port(), "--http", "0", "--data", folder.resolve("b").toString());

      assertThat(second.exit()).isEqualTo(ExitCode.UNAVAILABLE);
      assertThat(second.err()).contains("already being recorded by process");
    }
  }

  @Test
  void portsSaysWhoIsThere() throws Exception {
    Jar.Done ports = Jar.onThisJava().run("ports", "--also", rig.port());

    assertThat(ports.out()).contains(rig.port()).contains("virtualrig").contains("protocol 1");
  }

  @Test
  void aCaptureHoldsTheCutsThatWereMade() throws Exception {
    Path file = folder.resolve("a.capture");
    try (Live capture =
        Jar.onThisJava().start("capture", rig.port(), file.toString(), "--seconds", "9")) {
      awaitFile(file);
      rig.perform(
              Script.of(new Action.Rest(3), Action.Cut.ofGramForce(100, 100), new Action.Rest(1)))
          .join();
      capture.await("bytes in");
    }
    Jar.Done analysis =
        Jar.onThisJava().run("analyze", file.toString(), "--counts-per-gf", "437.25", "--json");

    assertThat(analysis.out().lines()).hasSize(1);
    assertThat(analysis.out()).contains("\"severed\"");
  }

  private Live record() throws Exception {
    return Jar.onThisJava()
        .start(
            "run",
            rig.port(),
            "--http",
            "0",
            "--json",
            "--counts-per-gf",
            "437.25",
            "--data",
            folder.resolve("data").toString());
  }

  /** Waits until the rig has sent so many more samples: one second of rest, then loading. */
  private void awaitSamples(int more) {
    long enough = rig.sent().samples() + more;
    while (rig.sent().samples() < enough) {
      LockSupport.parkNanos(20_000_000);
    }
  }

  /** Java may take seconds to start; what the rig sends before is not captured. */
  private static void awaitFile(Path file) {
    long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(PATIENCE_SECONDS);
    while (Files.notExists(file) && System.nanoTime() < end) {
      LockSupport.parkNanos(20_000_000);
    }
    assertThat(file).exists();
  }

  private List<String> outcomes() throws Exception {
    Jar.Done list =
        Jar.onThisJava().run("cuts", "list", "--json", "--data", folder.resolve("data").toString());
    return list.out()
        .lines()
        .map(
            line -> {
              try {
                return JSON.std.mapFrom(line).get("outcome").toString();
              } catch (IOException e) {
                throw new UncheckedIOException(e);
              }
            })
        .toList();
  }

  private static String page(String line) {
    Matcher page = PAGE.matcher(line);
    assertThat(page.find()).isTrue();
    return page.group();
  }

  private static Map<String, Object> health(String page) throws Exception {
    return JSON.std.mapFrom(get(page + "/health"));
  }

  private static String get(String address) throws Exception {
    return CLIENT
        .send(
            HttpRequest.newBuilder(URI.create(address)).build(),
            HttpResponse.BodyHandlers.ofString())
        .body();
  }
}
