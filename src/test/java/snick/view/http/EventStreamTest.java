package snick.view.http;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import snick.sample.IgnoredSamples;
import snick.sample.SampleSink;
import snick.view.TestBench;

/** The event stream over real sockets: catch-up, cap, viewers that stall. */
@Timeout(90)
class EventStreamTest {
  @TempDir Path folder;
  private TestBench bench;

  @BeforeEach
  void start() throws IOException {
    bench = new TestBench(folder);
  }

  @AfterEach
  void stop() {
    bench.close();
  }

  @Test
  void aCutArrivesAndOneWhoComesBackGetsWhatItMissed() throws Exception {
    String lastId;
    try (Watcher watcher = new Watcher("")) {
      watcher.await("event: state");
      bench.cut(120);
      lastId = watcher.await("id: ");
      assertThat(watcher.await("data: ")).contains("\"force_gf\":120.0").contains("\"id\":1");
    }
    bench.cut(130);
    bench.cut(140);
    TestBench.await("both cuts", () -> bench.get("/api/v1/bench").body().contains("\"id\":3"));
    try (Watcher back = new Watcher("Last-Event-" + lastId.replace("id:", "ID:") + "\r\n")) {
      assertThat(back.await("data: ")).contains("\"id\":2");
      assertThat(back.await("data: ")).contains("\"id\":3");
      assertThat(back.await("event: ")).isEqualTo("event: state");
    }
  }

  @Test
  void oneTooManyIsToldSoAndPlacesComeFreeAgain() throws Exception {
    List<Watcher> watchers = new ArrayList<>();
    for (int i = 0; i < EventHub.MOST_VIEWERS; i++) {
      watchers.add(new Watcher(""));
      watchers.get(i).await("event: state");
    }
    try (Watcher refused = new Watcher("")) {
      assertThat(refused.status).contains("503");
    }
    for (Watcher watcher : watchers) {
      watcher.close();
    }
    TestBench.await("a free place", this::admitted);
  }

  private boolean admitted() throws IOException {
    try (Watcher again = new Watcher("")) {
      return again.status.contains("200");
    }
  }

  @Test
  void viewersThatTakeNothingHoldUpNobody() throws Exception {
    List<Watcher> asleep = new ArrayList<>();
    for (int i = 0; i < 5; i++) {
      asleep.add(new Watcher(""));
    }
    SampleSink rig = bench.trace.before(new IgnoredSamples());
    try (Watcher awake = new Watcher("")) {
      for (int i = 0; i < 200; i++) {
        for (int k = 0; k < 500; k++) {
          rig.sample((500L * i + k) * 1_000_000, 84_210 + k);
        }
        if (i % 20 == 0) {
          bench.cut(100 + i);
          awake.await("event: cut");
        }
      }
    }
    for (Watcher watcher : asleep) {
      watcher.close();
    }
    assertThat(bench.get("/api/v1/cuts?limit=100").body()).contains("\"id\":10");
  }

  /** One who watches over a socket of its own. */
  private final class Watcher implements AutoCloseable {
    private final Socket socket;
    private final BufferedReader lines;
    private final String status;

    Watcher(String headers) throws IOException {
      socket = new Socket(InetAddress.getLoopbackAddress(), bench.page.portNumber());
      socket.setReceiveBufferSize(4096);
      String request = "GET /api/v1/events HTTP/1.1\r\nHost: localhost\r\n" + headers + "\r\n";
      socket.getOutputStream().write(request.getBytes(StandardCharsets.US_ASCII));
      lines =
          new BufferedReader(
              new InputStreamReader(socket.getInputStream(), StandardCharsets.UTF_8));
      status = lines.readLine();
    }

    /** The next line that begins with {@code beginning}. */
    String await(String beginning) throws IOException {
      for (String line = lines.readLine(); line != null; line = lines.readLine()) {
        if (line.startsWith(beginning)) {
          return line;
        }
      }
      throw new AssertionError("the stream ended before " + beginning);
    }

    @Override
    public void close() throws IOException {
      socket.close();
    }
  }
}
