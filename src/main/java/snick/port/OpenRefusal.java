package snick.port;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFileAttributes;
import snick.phrase.Phrase;

/** Why a serial port could not be opened, in words, by the system's own error number. */
final class OpenRefusal {
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
              Phrase.of("port.not_opened", "port", path, "error", error));
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
    return new PortException(
        PortException.Reason.BUSY,
        Phrase.of("port.in_use", "port", path, "who", Phrase.of(whoHasIt(system), "port", path)));
  }

  private static String whoHasIt(OperatingSystem system) {
    return switch (system) {
      case LINUX -> "port.close_on_linux";
      case MAC -> "port.close_on_mac";
      case WINDOWS -> "port.close_on_windows";
    };
  }

  static PortException notAPort(Path path, Exception cause) {
    return new PortException(
        PortException.Reason.NOT_A_PORT, Phrase.of("port.not_serial", "port", path), cause);
  }

  static PortException notThere(Path path, Exception cause) {
    return new PortException(
        PortException.Reason.NOT_FOUND, Phrase.of("port.not_there", "port", path), cause);
  }

  static PortException noPermission(Path path) {
    return new PortException(
        PortException.Reason.NO_PERMISSION,
        Phrase.of("port.no_permission", "port", path, "advice", groupAdvice(path)));
  }

  private static Phrase groupAdvice(Path path) {
    try {
      String group = Files.readAttributes(path, PosixFileAttributes.class).group().getName();
      return Phrase.of("port.join_group", "group", group);
    } catch (IOException | UnsupportedOperationException e) {
      return Phrase.of("port.ask_for_access");
    }
  }
}
