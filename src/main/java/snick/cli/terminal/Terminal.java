package snick.cli.terminal;

import java.io.Console;
import java.io.IOException;
import java.nio.file.Path;
import snick.port.OperatingSystem;

/** Whether a person watches an output. */
public final class Terminal {
  private Terminal() {}

  /** Whether stderr goes to a terminal; false where the system does not say. */
  public static boolean watchesErrors() {
    return isTerminal(2);
  }

  /** Whether stdout goes to a terminal; false where the system does not say. */
  public static boolean watchesOutput() {
    return isTerminal(1);
  }

  private static boolean isTerminal(int descriptor) {
    return OperatingSystem.present() == OperatingSystem.LINUX
        ? isTerminalDevice(descriptor)
        : isConsole(System.console());
  }

  private static boolean isTerminalDevice(int descriptor) {
    try {
      String device = Path.of("/dev/fd/" + descriptor).toRealPath().toString();
      return device.startsWith("/dev/pts/") || device.startsWith("/dev/tty");
    } catch (IOException e) {
      return false;
    }
  }

  /**
   * Java says it for standard input and output together only; from 22 on it gives a console always,
   * which can be asked.
   */
  static boolean isConsole(Console console) {
    if (console == null) {
      return false;
    }
    try {
      return (Boolean) Console.class.getMethod("isTerminal").invoke(console);
    } catch (NoSuchMethodException before22) {
      return true;
    } catch (ReflectiveOperationException e) {
      return false;
    }
  }
}
