package snick.faults;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.Socket;
import java.net.SocketException;
import java.net.SocketTimeoutException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import snick.daemon.Pipeline;
import snick.daemon.Recorder;
import snick.daemon.Scale;
import snick.port.PortAddress;

/**
 * Fuzz target: what comes to the page's port, byte for byte. {@code %T} stands for the token, so
 * that changes are reached. Never an error of the program, and the next good request is answered.
 */
public final class HttpFuzz {
  private static final int RECORDER_LASTS = 2000;
  private static final int LOOK_EVERY = 32;
  private static final int HOSTILE_PATIENCE_MILLIS = 200;
  private static final int GOOD_PATIENCE_MILLIS = 10_000;
  private static final int MOST_ANSWER_BYTES = 1 << 18;
  private static final byte[] GOOD =
      "GET /api/v1/cuts?limit=1 HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n"
          .getBytes(StandardCharsets.ISO_8859_1);

  private static final Path FOLDER = FuzzFolder.make("http");
  private static int used;
  private static Optional<Served> now = Optional.empty();

  private HttpFuzz() {}

  private record Served(Recorder recorder, Path folder, String token) {
    int port() {
      return recorder.httpPort().orElseThrow();
    }

    void end() {
      recorder.close();
      FuzzFolder.empty(folder);
    }
  }

  /** One input. */
  public static void fuzzerTestOneInput(byte[] input) throws IOException {
    Served served = served();
    String request = new String(input, StandardCharsets.ISO_8859_1);
    byte[] bytes = request.replace("%T", served.token()).getBytes(StandardCharsets.ISO_8859_1);
    String answer = ask(served, bytes, HOSTILE_PATIENCE_MILLIS);
    if (answer.contains("an error of this program") || answer.startsWith("HTTP/1.1 500")) {
      throw new IllegalStateException(answer);
    }
    if (used % LOOK_EVERY == 0) {
      assertThat(ask(served, GOOD, GOOD_PATIENCE_MILLIS)).startsWith("HTTP/1.1 200");
      assertThat(served.recorder().state().faults())
          .noneMatch(fault -> fault.kind().equals("page"));
    }
  }

  /** Not in a static initialiser: the recorder's threads use this class. */
  private static Served served() {
    if (++used % RECORDER_LASTS == 0) {
      now.ifPresent(Served::end);
      now = Optional.empty();
    }
    if (now.isEmpty()) {
      now = Optional.of(serve());
    }
    return now.get();
  }

  private static Served serve() {
    try {
      Path folder = Files.createTempDirectory(FOLDER, "served");
      Path stream = Files.write(folder.resolve("stream"), Streams.twoCuts());
      Recorder recorder =
          Recorder.start(
              settings(folder, stream),
              recording -> Scale.none(List.of()),
              new Recorder.Audience(cut -> {}, word -> {}),
              Clock.systemUTC());
      recorder.awaitEnd();
      String token =
          Files.readString(folder.resolve("page-" + recorder.httpPort().orElseThrow() + ".token"));
      return new Served(recorder, folder, token.strip());
    } catch (Exception e) {
      throw new IllegalStateException(e);
    }
  }

  private static Recorder.Settings settings(Path folder, Path stream) {
    return new Recorder.Settings(
        List.of(new PortAddress.RecordedFile(stream)),
        115_200,
        Pipeline.Settings.defaults(),
        folder.resolve("data"),
        folder,
        OptionalInt.of(0),
        "fuzz");
  }

  private static String ask(Served served, byte[] request, int patienceMillis) throws IOException {
    ByteArrayOutputStream answer = new ByteArrayOutputStream();
    try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), served.port())) {
      socket.setSoTimeout(patienceMillis);
      socket.getOutputStream().write(request);
      socket.shutdownOutput();
      read(socket.getInputStream(), answer);
    } catch (SocketTimeoutException stillOpen) {
      return answer.toString(StandardCharsets.ISO_8859_1);
    } catch (SocketException closedEarly) {
      return answer.toString(StandardCharsets.ISO_8859_1);
    }
    return answer.toString(StandardCharsets.ISO_8859_1);
  }

  private static void read(InputStream in, ByteArrayOutputStream answer) throws IOException {
    byte[] buffer = new byte[8192];
    int count = in.read(buffer);
    while (count >= 0 && answer.size() < MOST_ANSWER_BYTES) {
      answer.write(buffer, 0, count);
      count = in.read(buffer);
    }
  }
}
