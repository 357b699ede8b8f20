package snick.view.http;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import snick.phrase.Words;
import snick.view.TestBench;

/** The seam over real sockets. */
@Timeout(60)
class LoopbackServerTest {
  private static final int CROWD = 25;

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
        hub.publish(new ServerSentEvent(ServerSentEvent.Kind.POINTS, megabyte));
      }
      TestBench.await("a write that hangs", LoopbackServerTest::writing);

      hub.dismissStalled(System.nanoTime() + 2_000_000_000L, 1_000_000_000L);

      assertThat(hub.watching()).isZero();
      TestBench.await("no write that hangs", () -> !writing());
    }
  }

  /** More than may be open at a time: each that goes makes room. */
  @Test
  void readersThatWentAwayAreNotCountedForEver() throws Exception {
    try (LoopbackServer server = serve()) {
      for (int crowd = 0; crowd < 1_100 / CROWD; crowd++) {
        List<Socket> readers = new ArrayList<>();
        for (int i = 0; i < CROWD; i++) {
          readers.add(reader(server));
        }
        TestBench.await("all who watch", () -> hub.watching() == CROWD);
        for (Socket reader : readers) {
          reader.close();
        }
        TestBench.await(
            "nobody who watches",
            () -> {
              hub.publish(new ServerSentEvent(ServerSentEvent.Kind.POINTS, "{}"));
              return hub.watching() == 0;
            });
      }
      try (Socket last = reader(server)) {
        last.setSoTimeout(20_000);
        assertThat(new String(last.getInputStream().readNBytes(12), StandardCharsets.US_ASCII))
            .isEqualTo("HTTP/1.1 200");
      }
    }
  }

  private static Socket reader(LoopbackServer server) throws IOException {
    Socket reader = new Socket(InetAddress.getLoopbackAddress(), server.portNumber());
    reader
        .getOutputStream()
        .write("GET / HTTP/1.1\r\nHost: x\r\n\r\n".getBytes(StandardCharsets.US_ASCII));
    return reader;
  }

  private static boolean writing() {
    return Thread.getAllStackTraces().entrySet().stream()
        .filter(thread -> thread.getKey().getName().equals("http"))
        .flatMap(thread -> List.of(thread.getValue()).stream())
        .anyMatch(frame -> frame.getClassName().contains("SocketDispatcher"));
  }

  private LoopbackServer serve() throws IOException {
    return LoopbackServer.start(
        new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
        new Site() {
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
            return new HttpAnswer.Stream(hub.admit(Optional.empty()).orElseThrow());
          }
        });
  }
}
