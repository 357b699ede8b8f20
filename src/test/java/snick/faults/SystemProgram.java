package snick.faults;

import java.io.IOException;
import java.util.List;
import java.util.concurrent.TimeUnit;

/** Programs of this machine that a test needs. */
final class SystemProgram {
  private static final long PATIENCE_SECONDS = 10;

  private SystemProgram() {}

  /** Whether {@code command} is there and does what it should. */
  static boolean does(String... command) {
    try {
      Process process =
          new ProcessBuilder(command)
              .redirectErrorStream(true)
              .redirectOutput(ProcessBuilder.Redirect.DISCARD)
              .start();
      return process.waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS) && process.exitValue() == 0;
    } catch (IOException noSuchProgram) {
      return false;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return false;
    }
  }

  static void demand(String... command) {
    if (!does(command)) {
      throw new AssertionError("failed: " + List.of(command));
    }
  }
}
