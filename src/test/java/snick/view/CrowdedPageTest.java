package snick.view;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import snick.phrase.Words;
import snick.view.http.HttpAnswer;
import snick.view.http.LoopbackServer;
import snick.view.http.Request;
import snick.view.http.Site;

/**
 * Whatever others do to the page: what watches the recorder is answered. Five seconds are allowed,
 * so that a slow machine is not taken for a failure.
 */
@Timeout(60)
class CrowdedPageTest {
  private static final int CROWD = 300;
  private static final int MOST_MILLIS = 5000;
  private static final String HEAD = " HTTP/1.1\r\nHost: x\r\n";

  private final CountDownLatch pageMayAnswer = new CountDownLatch(1);
  private final List<Socket> crowd = new ArrayList<>();
  private LoopbackServer server;

  @BeforeEach
  void serve() throws IOException {
    server = LoopbackServer.start(address(0), new SlowSite());
  }

  @AfterEach
  void end() throws IOException {
    pageMayAnswer.countDown();
    for (Socket socket : crowd) {
      socket.close();
    }
    server.close();
  }

  private static InetSocketAddress address(int port) {
    return new InetSocketAddress(InetAddress.getLoopbackAddress(), port);
  }

  private final class SlowSite implements Site {
    @Override
    public Optional<HttpAnswer.Problem> refuse(Request head) {
      return Optional.empty();
    }

    @Override
    public Words words() {
      return Words.english();
    }

    @Override
    public HttpAnswer answer(Request whole) {
      return switch (whole.path()) {
        case "/health" -> HttpAnswer.of(200, "text/plain", "well");
        case "/large" -> HttpAnswer.of(200, "text/plain", "x".repeat(8 << 20));
        default -> waiting();
      };
    }

    private HttpAnswer waiting() {
      try {
        pageMayAnswer.await();
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
      }
      return HttpAnswer.of(200, "text/plain", "late");
    }
  }

  private void crowdThatSends(String text) throws IOException {
    for (int i = 0; i < CROWD; i++) {
      crowd.add(connected(text));
    }
  }

  private Socket connected(String text) throws IOException {
    Socket socket = new Socket();
    socket.setReceiveBufferSize(4096);
    socket.connect(address(server.portNumber()));
    socket.getOutputStream().write(text.getBytes(StandardCharsets.US_ASCII));
    return socket;
  }

  private void healthAnswersInTime() throws IOException {
    for (int i = 0; i < 10; i++) {
      try (Socket watch = connected("GET /health" + HEAD + "Connection: close\r\n\r\n")) {
        watch.setSoTimeout(MOST_MILLIS);
        String answer =
            new String(watch.getInputStream().readAllBytes(), StandardCharsets.US_ASCII);
        assertThat(answer).startsWith("HTTP/1.1 200").endsWith("well");
      }
    }
  }

  @Test
  void besideSocketsThatSayNothing() throws IOException {
    crowdThatSends("");
    healthAnswersInTime();
  }

  @Test
  void besideRequestsThatNeverGetToTheirEnd() throws IOException {
    crowdThatSends("GET /");
    healthAnswersInTime();
  }

  @Test
  void besideBodiesThatNeverCome() throws IOException {
    crowdThatSends("POST /" + HEAD + "Content-Length: 60000\r\n\r\n");
    healthAnswersInTime();
  }

  @Test
  void besideAPageThatHasTooMuchToDo() throws IOException {
    crowdThatSends("GET /" + HEAD + "\r\n");
    healthAnswersInTime();
  }

  @Test
  void aReaderThatTakesNothingLosesTheConnection() throws Exception {
    crowd.add(connected("GET /large" + HEAD + "\r\n"));
    TestBench.await("an answer that hangs", CrowdedPageTest::writing);
    TestBench.await("no answer that hangs", () -> !writing());
  }

  private static boolean writing() {
    return Thread.getAllStackTraces().entrySet().stream()
        .filter(thread -> thread.getKey().getName().equals("http"))
        .flatMap(thread -> List.of(thread.getValue()).stream())
        .anyMatch(frame -> frame.getClassName().contains("SocketDispatcher"));
  }
}
