package snick.service;

import com.sun.jna.NativeLong;
import com.sun.jna.Platform;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.concurrent.TimeUnit;

/**
 * Whoever started this program as a service and wants to hear how it does, by datagrams as
 * sd_notify(3) describes them. Any thread.
 */
public final class Supervisor implements AutoCloseable {
  private final byte[] address;
  private final OptionalLong patienceNanos;
  private final int socket;

  private Supervisor(byte[] address, OptionalLong patienceNanos) throws IOException {
    this.address = address;
    this.patienceNanos = patienceNanos;
    this.socket =
        SocketCalls.socket(
            SocketCalls.AF_UNIX, SocketCalls.SOCK_DGRAM | SocketCalls.SOCK_CLOEXEC, 0);
    if (socket < 0) {
      throw new IOException("no socket: error " + SocketCalls.lastError());
    }
  }

  /**
   * The supervisor that {@code environment} names: {@code NOTIFY_SOCKET}, {@code WATCHDOG_USEC} and
   * {@code WATCHDOG_PID}; empty if it names none, or this system knows none.
   *
   * @throws IOException if what it names cannot be used
   */
  public static Optional<Supervisor> of(Map<String, String> environment) throws IOException {
    String name = environment.getOrDefault("NOTIFY_SOCKET", "");
    if (name.isEmpty() || !Platform.isLinux()) {
      return Optional.empty();
    }
    try {
      return Optional.of(new Supervisor(SocketName.structure(name), patience(environment)));
    } catch (IllegalArgumentException e) {
      throw new IOException("NOTIFY_SOCKET or WATCHDOG_USEC: " + e.getMessage(), e);
    } catch (LinkageError e) {
      throw new IOException("NOTIFY_SOCKET cannot be used here: " + e.getMessage(), e);
    }
  }

  private static OptionalLong patience(Map<String, String> environment) {
    String micros = environment.getOrDefault("WATCHDOG_USEC", "");
    String process = environment.getOrDefault("WATCHDOG_PID", "");
    boolean meant =
        process.isEmpty() || process.equals(Long.toString(ProcessHandle.current().pid()));
    if (micros.isEmpty() || !meant) {
      return OptionalLong.empty();
    }
    return OptionalLong.of(TimeUnit.MICROSECONDS.toNanos(Long.parseLong(micros)));
  }

  /**
   * How long it waits for {@link #alive} before it starts this program anew, ns; empty: for ever.
   */
  public OptionalLong patienceNanos() {
    return patienceNanos;
  }

  /** The service does its work from now on. */
  public void ready() throws IOException {
    send("READY=1");
  }

  /** How it does, for people. */
  public void status(String line) throws IOException {
    send("STATUS=" + line.replace('\n', ' '));
  }

  /** It still does its work. */
  public void alive() throws IOException {
    send("WATCHDOG=1");
  }

  /** It is about to end. */
  public void stopping() throws IOException {
    send("STOPPING=1");
  }

  private void send(String text) throws IOException {
    byte[] message = text.getBytes(StandardCharsets.UTF_8);
    int flags = SocketCalls.MSG_DONTWAIT | SocketCalls.MSG_NOSIGNAL;
    NativeLong length = new NativeLong(message.length);
    long sent =
        SocketCalls.sendto(socket, message, length, flags, address, address.length).longValue();
    if (sent != message.length) {
      throw new IOException(
          "the service's supervisor does not hear: error " + SocketCalls.lastError());
    }
  }

  @Override
  public void close() {
    SocketCalls.close(socket);
  }
}
