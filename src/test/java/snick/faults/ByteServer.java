package snick.faults;

import java.io.IOException;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;

/** Serves bytes to whoever connects, as a network bridge of a serial port does. */
final class ByteServer implements AutoCloseable {
  private static final long DRIP_MILLIS = 100;
  private static final int DRIP_BYTES = 200;

  private final ServerSocket server;
  private volatile boolean closed;

  /** Sends bytes. */
  @FunctionalInterface
  private interface Sending {
    void to(OutputStream out) throws IOException;
  }

  private ByteServer(Sending sending) throws IOException {
    server = new ServerSocket(0, 1, InetAddress.getLoopbackAddress());
    Thread thread = new Thread(() -> serve(sending), "byte-server");
    thread.setDaemon(true);
    thread.start();
  }

  /** Sends {@code first} so many times, then {@code last} once; stays connected. */
  static ByteServer start(byte[] first, int times, byte[] last) throws IOException {
    return new ByteServer(
        out -> {
          for (int i = 0; i < times; i++) {
            out.write(first);
          }
          out.write(last);
        });
  }

  /** Sends {@code bytes} over and over, some every 100 ms. */
  static ByteServer dripping(byte[] bytes) throws IOException {
    ByteServer[] self = new ByteServer[1];
    self[0] = new ByteServer(out -> drip(self, bytes, out));
    return self[0];
  }

  private static void drip(ByteServer[] self, byte[] bytes, OutputStream out) throws IOException {
    int at = 0;
    while (self[0] == null || !self[0].closed) {
      int length = Math.min(DRIP_BYTES, bytes.length - at);
      out.write(bytes, at, length);
      at = (at + length) % bytes.length;
      Instants.pass(DRIP_MILLIS);
    }
  }

  private void serve(Sending sending) {
    try (Socket socket = server.accept()) {
      sending.to(socket.getOutputStream());
      while (socket.getInputStream().read() >= 0) {
        // The recorder's questions are not answered.
      }
    } catch (IOException over) {
      return;
    }
  }

  String port() {
    return "tcp://127.0.0.1:" + server.getLocalPort();
  }

  @Override
  public void close() throws IOException {
    closed = true;
    server.close();
  }
}
