package snick.service;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIOException;

import java.io.IOException;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

/** Messages and variables as sd_notify(3) and sd_watchdog_enabled(3) of systemd 252 have them. */
@EnabledOnOs(OS.LINUX)
class SupervisorTest {
  private static final String OWN_PID = Long.toString(ProcessHandle.current().pid());

  @TempDir Path folder;

  @Test
  void itIsToldThroughASocketInTheFileSystem() throws Exception {
    sayEverythingTo(folder.resolve("notify").toString());
  }

  @Test
  void itIsToldThroughASocketOutsideTheFileSystem() throws Exception {
    sayEverythingTo("@snick-test-" + OWN_PID);
  }

  private static void sayEverythingTo(String name) throws Exception {
    try (ListeningSupervisor listening = ListeningSupervisor.at(name);
        Supervisor supervisor = Supervisor.of(Map.of("NOTIFY_SOCKET", name)).orElseThrow()) {
      supervisor.ready();
      supervisor.status("2 rigs\nrecording");
      supervisor.alive();
      supervisor.stopping();

      assertThat(listening.await("")).isEqualTo("READY=1");
      assertThat(listening.await("")).isEqualTo("STATUS=2 rigs recording");
      assertThat(listening.await("")).isEqualTo("WATCHDOG=1");
      assertThat(listening.await("")).isEqualTo("STOPPING=1");
    }
  }

  @Test
  void thereIsNoneUnlessTheEnvironmentNamesIt() throws IOException {
    assertThat(Supervisor.of(Map.of())).isEmpty();
    assertThat(Supervisor.of(Map.of("NOTIFY_SOCKET", "", "WATCHDOG_USEC", "1"))).isEmpty();
  }

  @Test
  void itsPatienceIsMeantForTheProcessThatItNames() throws IOException {
    assertThat(patienceNanos(Map.of())).isEmpty();
    assertThat(patienceNanos(Map.of("WATCHDOG_USEC", "30000000"))).containsExactly(30_000_000_000L);
    assertThat(patienceNanos(Map.of("WATCHDOG_USEC", "5", "WATCHDOG_PID", OWN_PID)))
        .containsExactly(5_000L);
    assertThat(patienceNanos(Map.of("WATCHDOG_USEC", "5", "WATCHDOG_PID", "1"))).isEmpty();
  }

  private static LongStream patienceNanos(Map<String, String> more) throws IOException {
    Map<String, String> environment = new HashMap<>(more);
    environment.put("NOTIFY_SOCKET", "@snick-nobody");
    try (Supervisor supervisor = Supervisor.of(environment).orElseThrow()) {
      return supervisor.patienceNanos().stream();
    }
  }

  @Test
  void whatCannotBeIsRefused() {
    for (Map<String, String> environment :
        List.of(
            Map.of("NOTIFY_SOCKET", "relative"),
            Map.of("NOTIFY_SOCKET", "/" + "x".repeat(107)),
            Map.of("NOTIFY_SOCKET", "@a", "WATCHDOG_USEC", "soon"))) {
      assertThatIOException()
          .isThrownBy(() -> Supervisor.of(environment))
          .withMessageContaining("NOTIFY_SOCKET");
    }
  }

  @Test
  void aSupervisorThatDoesNotListenIsAnError() throws IOException {
    String nobody = folder.resolve("nobody").toString();
    try (Supervisor supervisor = Supervisor.of(Map.of("NOTIFY_SOCKET", nobody)).orElseThrow()) {
      assertThatIOException().isThrownBy(supervisor::alive).withMessageContaining("does not hear");
    }
  }
}
