package snick.virtualrig.line;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.StandardSocketOptions;
import java.nio.ByteBuffer;
import java.nio.channels.SelectionKey;
import java.nio.channels.Selector;
import java.nio.channels.ServerSocketChannel;
import java.nio.channels.SocketChannel;
import java.util.Optional;
import java.util.concurrent.locks.LockSupport;

/** The rig behind a serial-to-network bridge: raw TCP on the loopback address, one host at once. */
public final class TcpServing implements Link {
  private static final long NANOS_PER_MILLI = 1_000_000;
  private static final long ABSENT_NANOS = 5_000_000;

  /** About what a small bridge holds. */
  private static final int BRIDGE_BUFFER_BYTES = 16_384;

  private InetSocketAddress address;
  private Optional<ServerSocketChannel> server = Optional.empty();
  private Optional<SocketChannel> host = Optional.empty();

  private TcpServing(int port) {
    this.address = new InetSocketAddress(InetAddress.getLoopbackAddress(), port);
  }

  /**
   * Listen on the loopback address.
   *
   * @param port port number; 0 for any free one
   */
  public static TcpServing on(int port) throws IOException {
    TcpServing serving = new TcpServing(port);
    serving.publish();
    return serving;
  }

  @Override
  public String port() {
    return "tcp://" + address.getAddress().getHostAddress() + ":" + address.getPort();
  }

  @Override
  public void publish() throws IOException {
    ServerSocketChannel opened = ServerSocketChannel.open();
    opened.setOption(StandardSocketOptions.SO_REUSEADDR, true);
    opened.bind(address, 1);
    opened.configureBlocking(false);
    address = (InetSocketAddress) opened.getLocalAddress();
    server = Optional.of(opened);
  }

  @Override
  public boolean hasReader() {
    if (host.isEmpty() && server.isPresent()) {
      host = accept(server.get());
    }
    return host.isPresent();
  }

  private static Optional<SocketChannel> accept(ServerSocketChannel server) {
    try {
      SocketChannel accepted = server.accept();
      if (accepted != null) {
        accepted.configureBlocking(false);
        accepted.setOption(StandardSocketOptions.TCP_NODELAY, true);
        accepted.setOption(StandardSocketOptions.SO_SNDBUF, BRIDGE_BUFFER_BYTES);
      }
      return Optional.ofNullable(accepted);
    } catch (IOException failure) {
      return Optional.empty();
    }
  }

  @Override
  public int write(byte[] bytes, int length) throws IOException {
    if (!hasReader()) {
      return 0;
    }
    try {
      return host.get().write(ByteBuffer.wrap(bytes, 0, length));
    } catch (IOException gone) {
      letGo();
      return 0;
    }
  }

  @Override
  public int read(byte[] into) throws IOException {
    if (!hasReader()) {
      return 0;
    }
    int read;
    try {
      read = host.get().read(ByteBuffer.wrap(into));
    } catch (IOException gone) {
      read = -1;
    }
    if (read < 0) {
      letGo();
    }
    return Math.max(0, read);
  }

  private void letGo() throws IOException {
    if (host.isPresent()) {
      host.get().close();
      host = Optional.empty();
    }
  }

  @Override
  public void await(long nanos) throws IOException {
    if (!hasReader()) {
      LockSupport.parkNanos(Math.min(nanos, ABSENT_NANOS));
    } else if (nanos < NANOS_PER_MILLI) {
      LockSupport.parkNanos(nanos);
    } else {
      select(host.get(), nanos / NANOS_PER_MILLI);
    }
  }

  private static void select(SocketChannel host, long millis) throws IOException {
    try (Selector selector = Selector.open()) {
      host.register(selector, SelectionKey.OP_READ);
      selector.select(millis);
    }
  }

  @Override
  public void hangUp() throws IOException {
    if (server.isPresent()) {
      server.get().close();
      server = Optional.empty();
    }
    letGo();
  }
}
