package snick.port;

import com.fazecast.jSerialComm.SerialPort;
import com.fazecast.jSerialComm.SerialPortInvalidPortException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import snick.phrase.Phrase;

/**
 * A serial device, raw, 8 data bits, no parity, one stop bit. The library's blocking read with a
 * time-out is used, never its listeners.
 */
final class SerialLink implements ByteLink {
  /** The library's time-outs come in steps of 100 ms on Linux. */
  private static final int READ_WAIT_MILLIS = 100;

  private static final long CLOSE_WAIT_SECONDS = 2;

  private final SerialPort port;
  private final Path path;
  private volatile long arrivalNanos;
  private volatile boolean closed;

  private SerialLink(SerialPort port, Path path) {
    this.port = port;
    this.path = path;
  }

  /**
   * Opens {@code path}.
   *
   * @param bitsPerSecond standard rate, for example 115200
   * @throws PortException if it is not there, not permitted or in use
   */
  static SerialLink open(Path path, int bitsPerSecond) throws PortException {
    requireAccess(path);
    SerialLibrary.load();
    SerialPort port = find(path);
    port.setComPortParameters(bitsPerSecond, 8, SerialPort.ONE_STOP_BIT, SerialPort.NO_PARITY);
    port.setFlowControl(SerialPort.FLOW_CONTROL_DISABLED);
    port.setComPortTimeouts(SerialPort.TIMEOUT_READ_SEMI_BLOCKING, READ_WAIT_MILLIS, 0);
    if (!port.openPort(0)) {
      throw OpenRefusal.of(OperatingSystem.present(), path, port.getLastErrorCode());
    }
    return new SerialLink(port, path);
  }

  private static SerialPort find(Path path) throws PortException {
    try {
      return SerialPort.getCommPort(path.toString());
    } catch (SerialPortInvalidPortException e) {
      throw Files.exists(path) ? OpenRefusal.notAPort(path, e) : OpenRefusal.notThere(path, e);
    }
  }

  private static void requireAccess(Path path) throws PortException {
    if (!path.isAbsolute()) {
      return;
    }
    if (Files.notExists(path)) {
      throw OpenRefusal.notThere(path, null);
    }
    if (!Files.isReadable(path) || !Files.isWritable(path)) {
      throw OpenRefusal.noPermission(path);
    }
  }

  @Override
  public int read(byte[] buffer) throws IOException {
    int count = port.readBytes(buffer, buffer.length);
    arrivalNanos = System.nanoTime();
    if (count < 0) {
      throw new LinkLostException(Phrase.of("port.went_away", "port", path));
    }
    return count;
  }

  @Override
  public void write(byte[] bytes) throws IOException {
    if (port.writeBytes(bytes, bytes.length) != bytes.length) {
      throw new LinkLostException(Phrase.of("port.takes_nothing", "port", path, "n", bytes.length));
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

  /** Closes the port; a driver that hangs is left behind after two seconds. */
  @Override
  public void close() {
    if (closed) {
      return;
    }
    closed = true;
    Thread closing = new Thread(port::closePort, "port-close");
    closing.setDaemon(true);
    closing.start();
    try {
      closing.join(TimeUnit.SECONDS.toMillis(CLOSE_WAIT_SECONDS));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
