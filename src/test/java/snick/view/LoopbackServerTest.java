package snick.view;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** The seam over real sockets. */
@Timeout(60)
class LoopbackServerTest {
  private final EventHub hub = new EventHub(Instant.EPOCH, List::of);

  @Test
  void aReaderThatTakesNothingIsCutOffAndItsThreadEnds() throws Exception {
    try (LoopbackServer server = serve();
        Socket asleep = new Socket()) {
      asleep.setReceiveBufferSize(4096);
      asleep.connect(new InetSocketAddress(InetAddress.getLoopbackAddress(), server.portNumber()));
      asleep
          .getOutputStream()
          .write("GET / HTTP/1.1\r\nHost: x\r\n\r\n".getBytes(StandardCharsets.US_ASCII));
      TestBench.await("one who watches", () -> hub.watching() == 1);
      String megabyte = "x".repeat(1 << 20);
      for (int i = 0; i < 40; i++) {
        hub.publish(new Event(Event.Kind.POINTS, megabyte));
      }
      TestBench.await("a write that hangs", LoopbackServerTest::writing);

      hub.dismissStalled(System.nanoTime() + 2_000_000_000L, 1_000_000_000L);

      assertThat(hub.watching()).isZero();
      TestBench.await("no write that hangs", () -> !writing());
    }
  }

  private static boolean writing() {
    return Thread.getAllStackTraces().entrySet().stream()
        .filter(thread -> thread.getKey().getName().equals("viewer"))
        .flatMap(thread -> List.of(thread.getValue()).stream())
        .anyMatch(frame -> frame.getClassName().contains("SocketDispatcher"));
  }

  private LoopbackServer serve() throws IOException {
    return LoopbackServer.start(
        new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
        new Site() {
          @Override
          public Optional<Answer.Whole> refuse(Request head) {
            return Optional.empty();
          }

          @Override
          public Answer answer(Request whole) {
            return new Answer.Stream(hub.admit(Optional.empty()).orElseThrow());
          }
        });
  }
}
