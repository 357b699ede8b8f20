package snick.port;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.net.UnknownHostException;
import snick.phrase.Phrase;

/** A rig behind a raw serial-to-network bridge. */
final class TcpLink implements ByteLink {
  private static final int CONNECT_WAIT_MILLIS = 3000;
  private static final int READ_WAIT_MILLIS = 100;

  private final Socket socket;
  private final String name;
  private volatile long arrivalNanos;

  private TcpLink(Socket socket, String name) {
    this.socket = socket;
    this.name = name;
  }

  static TcpLink open(PortAddress.Tcp address) throws PortException {
    Socket socket = new Socket();
    try {
      socket.setTcpNoDelay(true);
      socket.setKeepAlive(true);
      socket.setSoTimeout(READ_WAIT_MILLIS);
      socket.connect(
          new InetSocketAddress(address.host(), address.portNumber()), CONNECT_WAIT_MILLIS);
      return new TcpLink(socket, address.text());
    } catch (IOException e) {
      closeQuietly(socket, e);
      throw refusal(address, e);
    }
  }

  private static void closeQuietly(Socket socket, IOException first) {
    try {
      socket.close();
    } catch (IOException e) {
      first.addSuppressed(e);
    }
  }

  private static PortException refusal(PortAddress.Tcp address, IOException cause) {
    Object why =
        cause instanceof UnknownHostException
            ? Phrase.of("port.host_unknown")
            : String.valueOf(cause.getMessage());
    return new PortException(
        PortException.Reason.NOT_FOUND,
        Phrase.of("port.no_answer", "port", address.text(), "why", why),
        cause);
  }

  @Override
  public int read(byte[] buffer) throws IOException {
    try {
      int count = socket.getInputStream().read(buffer);
      arrivalNanos = System.nanoTime();
      if (count < 0) {
        throw new LinkLostException(Phrase.of("port.closed", "port", name));
      }
      return count;
    } catch (SocketTimeoutException e) {
      return 0;
    } catch (LinkLostException e) {
      throw e;
    } catch (IOException e) {
      throw new LinkLostException(
          Phrase.of("port.broke", "port", name, "why", String.valueOf(e.getMessage())), e);
    }
  }

  @Override
  public void write(byte[] bytes) throws IOException {
    try {
      socket.getOutputStream().write(bytes);
    } catch (IOException e) {
      throw new LinkLostException(
          Phrase.of("port.broke", "port", name, "why", String.valueOf(e.getMessage())), e);
    }
  }

  @Override
  public boolean ended() {
    return false;
  }

  @Override
  public long arrivalNanos() {
    return arrivalNanos;
  }

  @Override
  public void close() throws IOException {
    socket.close();
  }
}
