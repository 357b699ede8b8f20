package snick.daemon;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.function.Consumer;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.cut.DetectorSettings;
import snick.daemon.link.WhenAbsent;
import snick.port.PortAddress;
import snick.quantity.SampleRate;
import snick.service.ListeningSupervisor;
import snick.service.Supervisor;
import snick.view.bench.Preferences;
import snick.view.http.PageReach;
import snick.virtualrig.Fault;
import snick.virtualrig.FaultyRig;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.script.Action;
import snick.virtualrig.script.Script;
import snick.virtualrig.settings.RigSettings;

/** A recorder on a real pseudo-terminal, and what its supervisor hears. */
class SupervisionIT {
  private static final String PING = "WATCHDOG=1";
  private static final long PATIENCE_MILLIS = 2000;

  @TempDir Path folder;
  private final CountDownLatch hanging = new CountDownLatch(1);
  private final CountDownLatch letGo = new CountDownLatch(1);
  private FaultyRig rig;
  private ListeningSupervisor heard;

  @BeforeEach
  void serve() throws Exception {
    heard = ListeningSupervisor.at(folder.resolve("notify").toString());
    rig = FaultyRig.serve(new VirtualRig(RigSettings.USUAL, 7), folder.resolve("rig"), 1);
  }

  @AfterEach
  void takeAway() throws Exception {
    letGo.countDown();
    rig.close();
    heard.close();
  }

  @Test
  void itHearsOfTheBeginningTheWorkAndTheEnd() throws Exception {
    try (Recorder recorder = record(cut -> {}, word -> {});
        Supervision supervision = supervise(recorder)) {
      heard.await("READY=1");
      heard.await(PING);
      heard.await("STATUS=1 of 1 rigs recording");
      rig.perform(Script.of(new Action.Rest(3), Action.Cut.ofGramForce(100, 100))).join();
      assertThat(heard.await("STATUS=1 of 1 rigs recording; cuts stored: 1")).isNotEmpty();
      assertThat(supervision).isNotNull();
    }
    heard.await("STOPPING=1");
    assertThat(heard.count("", 300)).as("messages after the end").isZero();
  }

  @Test
  void anUnpluggedRigIsNoStall() throws Exception {
    CountDownLatch away = new CountDownLatch(1);
    try (Recorder recorder = record(cut -> {}, word -> countIf(word, "went away", away));
        Supervision supervision = supervise(recorder)) {
      heard.await("STATUS=1 of 1 rigs recording");
      rig.inject(new Fault.HangUp(60));
      away.await();
      heard.await("STATUS=0 of 1 rigs recording");

      assertThat(heard.count(PING, 2 * PATIENCE_MILLIS)).isGreaterThanOrEqualTo(2);
      assertThat(supervision).isNotNull();
    }
  }

  @Test
  void aRigThatIsNotThereYetIsWaitedForAndNoStall() throws Exception {
    Path later = folder.resolve("later");
    try (Recorder recorder = record(later, WhenAbsent.AWAITED, cut -> {}, word -> {});
        Supervision supervision = supervise(recorder)) {
      heard.await("READY=1");
      heard.await("STATUS=0 of 1 rigs recording, waiting for 1 not there yet");
      assertThat(heard.count(PING, 2 * PATIENCE_MILLIS)).isGreaterThanOrEqualTo(2);
      Files.createSymbolicLink(later, Path.of(rig.port()));
      heard.await("STATUS=1 of 1 rigs recording; cuts stored: 0");
      assertThat(supervision).isNotNull();
    }
  }

  @Test
  void aReaderThatHangsIsNotCoveredUp() throws Exception {
    try (Recorder recorder = record(cut -> {}, word -> hangIf(word.contains("went away")));
        Supervision supervision = supervise(recorder)) {
      heard.await("STATUS=1 of 1 rigs recording");
      rig.inject(new Fault.HangUp(60));

      assertStalledUntilLetGo();
      assertThat(supervision).isNotNull();
    }
  }

  @Test
  void aKeeperThatHangsIsNotCoveredUp() throws Exception {
    try (Recorder recorder = record(cut -> hangIf(true), word -> {});
        Supervision supervision = supervise(recorder)) {
      heard.await("STATUS=1 of 1 rigs recording");
      CompletableFuture<Void> cut =
          rig.perform(Script.of(new Action.Rest(3), Action.Cut.ofGramForce(100, 100)));

      assertStalledUntilLetGo();
      cut.join();
      assertThat(supervision).isNotNull();
    }
  }

  /** At most the ping that was due when the thread began to hang. */
  private void assertStalledUntilLetGo() throws InterruptedException {
    hanging.await();
    assertThat(heard.count(PING, PATIENCE_MILLIS)).isLessThanOrEqualTo(1);
    letGo.countDown();
    heard.await(PING);
  }

  private static void countIf(String word, String part, CountDownLatch latch) {
    if (word.contains(part)) {
      latch.countDown();
    }
  }

  private void hangIf(boolean now) {
    if (now) {
      hanging.countDown();
      try {
        letGo.await();
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
      }
    }
  }

  private Supervision supervise(Recorder recorder) throws Exception {
    Map<String, String> environment =
        Map.of(
            "NOTIFY_SOCKET", heard.name(), "WATCHDOG_USEC", Long.toString(PATIENCE_MILLIS * 1000));
    return Supervision.begin(recorder, Supervisor.of(environment).orElseThrow(), word -> {});
  }

  private Recorder record(Consumer<AnnouncedCut> cut, Consumer<String> word) throws Exception {
    return record(Path.of(rig.port()), WhenAbsent.REFUSED, cut, word);
  }

  private Recorder record(
      Path port, WhenAbsent absent, Consumer<AnnouncedCut> cut, Consumer<String> word)
      throws Exception {
    Recorder.Settings settings =
        new Recorder.Settings(
            new Recorder.Sources(List.of(PortAddress.parse(port.toString())), 115200, absent),
            new Pipeline.Settings(
                Optional.empty(), new SampleRate(80), DetectorSettings.defaults()),
            folder.resolve("data"),
            folder.resolve("locks"),
            new Recorder.PageSettings(OptionalInt.empty(), PageReach.loopback(), Preferences.NONE),
            "test");
    return Recorder.start(
        settings,
        recording -> Scale.none(List.of()),
        new Recorder.Audience(cut, word),
        Clock.systemUTC());
  }
}
