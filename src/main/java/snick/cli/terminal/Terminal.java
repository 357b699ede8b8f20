package snick.cli.terminal;

import java.io.IOException;
import java.nio.file.Path;

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
    try {
      String device = Path.of("/dev/fd/" + descriptor).toRealPath().toString();
      return device.startsWith("/dev/pts/") || device.startsWith("/dev/tty");
    } catch (IOException e) {
      return false;
    }
  }
}
