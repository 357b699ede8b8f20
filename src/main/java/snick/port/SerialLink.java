package snick.port;

import com.fazecast.jSerialComm.SerialPort;
import com.fazecast.jSerialComm.SerialPortInvalidPortException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFileAttributes;
import java.util.concurrent.TimeUnit;

/**
 * A serial device, raw, 8 data bits, no parity, one stop bit. The library's blocking read with a
 * time-out is used, never its listeners.
 */
final class SerialLink implements ByteLink {
  /** The library's time-outs come in steps of 100 ms on Linux. */
  private static final int READ_WAIT_MILLIS = 100;

  private static final long CLOSE_WAIT_SECONDS = 2;

  /** errno EAGAIN: another program holds the advisory lock; EBUSY: exclusive use. */
  private static final int LOCKED = 11;

  private static final int IN_USE = 16;

  private static final int PERMISSION_DENIED = 13;

  /** errno ENOTTY: another kind of device; EISDIR: a folder. */
  private static final int NO_TERMINAL = 25;

  private static final int FOLDER = 21;
  private static final String NOT_A_PORT = " is not a serial port; list them: snick ports";

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
      throw refusal(path, port.getLastErrorCode());
    }
    return new SerialLink(port, path);
  }

  private static SerialPort find(Path path) throws PortException {
    try {
      return SerialPort.getCommPort(path.toString());
    } catch (SerialPortInvalidPortException e) {
      throw new PortException(
          Files.exists(path) ? PortException.Reason.NOT_A_PORT : PortException.Reason.NOT_FOUND,
          path + NOT_A_PORT,
          e);
    }
  }

  private static void requireAccess(Path path) throws PortException {
    if (!path.isAbsolute()) {
      return;
    }
    if (Files.notExists(path)) {
      throw new PortException(
          PortException.Reason.NOT_FOUND,
          path + " is not there; plug the rig in and list what is: snick ports");
    }
    if (!Files.isReadable(path) || !Files.isWritable(path)) {
      throw noPermission(path);
    }
  }

  private static PortException noPermission(Path path) {
    return new PortException(
        PortException.Reason.NO_PERMISSION,
        "no permission to read and write " + path + groupAdvice(path));
  }

  private static String groupAdvice(Path path) {
    try {
      String group = Files.readAttributes(path, PosixFileAttributes.class).group().getName();
      return "; it belongs to group "
          + group
          + ": add yourself (sudo usermod -aG "
          + group
          + " \"$USER\") and log in again";
    } catch (IOException | UnsupportedOperationException e) {
      return "; ask whoever keeps this machine for access";
    }
  }

  private static PortException refusal(Path path, int errorCode) {
    return switch (errorCode) {
      case LOCKED, IN_USE ->
          new PortException(
              PortException.Reason.BUSY,
              path + " is in use by another program; close it (who: fuser " + path + ")");
      case PERMISSION_DENIED -> noPermission(path);
      case NO_TERMINAL, FOLDER ->
          new PortException(PortException.Reason.NOT_A_PORT, path + NOT_A_PORT);
      default ->
          new PortException(
              PortException.Reason.OTHER,
              path + " could not be opened (system error " + errorCode + "); replug the rig");
    };
  }

  @Override
  public int read(byte[] buffer) throws IOException {
    int count = port.readBytes(buffer, buffer.length);
    arrivalNanos = System.nanoTime();
    if (count < 0) {
      throw new LinkLostException(path + " went away");
    }
    return count;
  }

  @Override
  public void write(byte[] bytes) throws IOException {
    if (port.writeBytes(bytes, bytes.length) != bytes.length) {
      throw new LinkLostException(path + " does not take " + bytes.length + " bytes");
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
