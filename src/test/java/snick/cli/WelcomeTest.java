package snick.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.journal.Session;
import snick.journal.Session.Equipment;
import snick.store.Store;

class WelcomeTest {
  @TempDir Path folder;

  private String said(Optional<String> rig) {
    StringWriter out = new StringWriter();
    new Welcome(rig, folder.resolve("data"), folder.resolve("run")).print(new PrintWriter(out));
    return out.toString();
  }

  @Test
  void whoIsNewIsShownADemo() {
    assertThat(said(Optional.empty()))
        .contains("none yet", "no recorder runs", "snick demo", "snick begin", "snick run PORT");
  }

  @Test
  void whoRecordsWithoutASessionBeginsOne() throws Exception {
    Files.createDirectories(folder.resolve("run"));
    try (ServerSocket page = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      Path token = folder.resolve("run").resolve("page-" + page.getLocalPort() + ".token");
      Files.writeString(token, "x");
      assertThat(said(Optional.empty()).lines().filter(line -> line.startsWith("  snick ")))
          .hasSize(3)
          .anyMatch(line -> line.contains("session start --blade LABEL"));
    }
  }

  @Test
  void whoRecordsSeesThePageAndTheOpenSession() throws Exception {
    Files.createDirectories(folder.resolve("run"));
    ServerSocket page = new ServerSocket(0, 1, InetAddress.getLoopbackAddress());
    Path token = folder.resolve("run").resolve("page-" + page.getLocalPort() + ".token");
    Files.writeString(token, "x");
    try (Store store = Store.open(folder.resolve("data"), Clock.systemUTC())) {
      Session session =
          new Session(
              "evening",
              "petty",
              new Equipment(Optional.empty(), Optional.empty(), Optional.empty()),
              OptionalDouble.empty(),
              Optional.empty(),
              Instant.parse("2026-05-04T18:00:00Z"),
              Optional.empty());
      store.journal().start(session, "as found", true);
    }
    assertThat(said(Optional.of("/dev/ttyACM0")))
        .contains("/dev/ttyACM0", "evening, still open", "snick coach")
        .contains("http://127.0.0.1:" + page.getLocalPort() + "/")
        .doesNotContain("snick demo");
    page.close();
    assertThat(said(Optional.empty())).as("the recorder was killed").contains("no recorder runs");
  }
}
