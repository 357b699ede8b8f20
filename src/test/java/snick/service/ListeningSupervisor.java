package snick.service;

import com.sun.jna.Library;
import com.sun.jna.Native;
import com.sun.jna.NativeLong;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;

/** The other end of the socket: hears what a service says. */
public final class ListeningSupervisor implements AutoCloseable {
  private static final int MOST_BYTES = 4096;
  private static final int READABLE = 1;
  private static final int LOOK_MILLIS = 50;
  private static final long PATIENCE_SECONDS = 30;

  /** The receiving half of what the service calls. */
  private interface Sockets extends Library {
    Sockets C = Native.load("c", Sockets.class);

    int socket(int domain, int type, int protocol);

    int bind(int socket, byte[] address, int length);

    NativeLong recv(int socket, byte[] into, NativeLong size, int flags);

    int poll(long[] descriptors, NativeLong number, int timeoutMillis);

    int close(int descriptor);
  }

  private final String name;
  private final int socket;
  private final BlockingQueue<String> heard = new LinkedBlockingQueue<>();
  private final Thread listening = new Thread(this::listen, "listening-supervisor");
  private volatile boolean closing;

  private ListeningSupervisor(String name) throws IOException {
    this.name = name;
    this.socket =
        Sockets.C.socket(SocketCalls.AF_UNIX, SocketCalls.SOCK_DGRAM | SocketCalls.SOCK_CLOEXEC, 0);
    byte[] address = SocketName.structure(name);
    if (Sockets.C.bind(socket, address, address.length) != 0) {
      throw new IOException("cannot bind " + name + ": error " + Native.getLastError());
    }
    listening.setDaemon(true);
    listening.start();
  }

  /** Listens at a path, or behind {@code @} at a name outside the file system. */
  public static ListeningSupervisor at(String name) throws IOException {
    return new ListeningSupervisor(name);
  }

  /** What NOTIFY_SOCKET says. */
  public String name() {
    return name;
  }

  private void listen() {
    byte[] message = new byte[MOST_BYTES];
    while (!closing) {
      long[] descriptor = {(socket & 0xFFFF_FFFFL) | ((long) READABLE << 32)};
      if (Sockets.C.poll(descriptor, new NativeLong(1), LOOK_MILLIS) > 0) {
        int length = Sockets.C.recv(socket, message, new NativeLong(message.length), 0).intValue();
        heard.add(new String(message, 0, length, StandardCharsets.UTF_8));
      }
    }
  }

  /** Waits for a message that begins with {@code text}. */
  public String await(String text) throws InterruptedException {
    while (true) {
      String message = heard.poll(PATIENCE_SECONDS, TimeUnit.SECONDS);
      if (message == null) {
        throw new AssertionError("'" + text + "' was not heard within " + PATIENCE_SECONDS + " s");
      }
      if (message.startsWith(text)) {
        return message;
      }
    }
  }

  /** How many messages begin with {@code text} in the next {@code millis}, from now on. */
  public int count(String text, long millis) throws InterruptedException {
    heard.clear();
    int count = 0;
    long end = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(millis);
    for (long left = end - System.nanoTime(); left > 0; left = end - System.nanoTime()) {
      String message = heard.poll(left, TimeUnit.NANOSECONDS);
      count += message != null && message.startsWith(text) ? 1 : 0;
    }
    return count;
  }

  @Override
  public void close() {
    closing = true;
    try {
      listening.join();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    Sockets.C.close(socket);
  }
}
