package snick.port;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFileAttributes;

/** Why a serial port could not be opened, in words, by the system's own error number. */
final class OpenRefusal {
  private static final String NOT_A_PORT = " is not a serial port; list them: snick ports";

  private OpenRefusal() {}

  /** The exception for the error number that {@code system} gave for {@code path}. */
  static PortException of(OperatingSystem system, Path path, int error) {
    return switch (reason(system, error)) {
      case BUSY -> busy(system, path);
      case NO_PERMISSION -> noPermission(path);
      case NOT_A_PORT -> notAPort(path, null);
      case NOT_FOUND -> notThere(path, null);
      default ->
          new PortException(
              PortException.Reason.OTHER,
              path + " could not be opened (system error " + error + "); replug the rig");
    };
  }

  private static PortException.Reason reason(OperatingSystem system, int error) {
    return switch (system) {
      case LINUX -> onLinux(error);
      case MAC -> onMac(error);
      case WINDOWS -> onWindows(error);
    };
  }

  /** errno: EAGAIN (another program holds the advisory lock), EBUSY (exclusive use), ENOTTY. */
  private static PortException.Reason onLinux(int error) {
    return switch (error) {
      case 11, 16 -> PortException.Reason.BUSY;
      case 13 -> PortException.Reason.NO_PERMISSION;
      case 21, 25 -> PortException.Reason.NOT_A_PORT;
      default -> PortException.Reason.OTHER;
    };
  }

  /** The same, but for EAGAIN, which has another number. */
  private static PortException.Reason onMac(int error) {
    return switch (error) {
      case 35 -> PortException.Reason.BUSY;
      case 11 -> PortException.Reason.OTHER;
      default -> onLinux(error);
    };
  }

  /**
   * ERROR_FILE_NOT_FOUND, ERROR_PATH_NOT_FOUND; ERROR_ACCESS_DENIED and ERROR_SHARING_VIOLATION,
   * both for a port that another program has open; ERROR_INVALID_FUNCTION for what is no port.
   */
  private static PortException.Reason onWindows(int error) {
    return switch (error) {
      case 1 -> PortException.Reason.NOT_A_PORT;
      case 2, 3 -> PortException.Reason.NOT_FOUND;
      case 5, 32 -> PortException.Reason.BUSY;
      default -> PortException.Reason.OTHER;
    };
  }

  private static PortException busy(OperatingSystem system, Path path) {
    String who =
        switch (system) {
          case LINUX -> "close it (who: fuser " + path + ")";
          case MAC -> "close it (who: lsof " + path + ")";
          case WINDOWS -> "close it: a serial monitor, or another recorder";
        };
    return new PortException(
        PortException.Reason.BUSY, path + " is in use by another program; " + who);
  }

  static PortException notAPort(Path path, Exception cause) {
    return new PortException(PortException.Reason.NOT_A_PORT, path + NOT_A_PORT, cause);
  }

  static PortException notThere(Path path, Exception cause) {
    return new PortException(
        PortException.Reason.NOT_FOUND,
        path + " is not there; plug the rig in and list what is: snick ports",
        cause);
  }

  static PortException noPermission(Path path) {
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
}
