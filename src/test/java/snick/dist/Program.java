package snick.dist;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;

/** A program of this machine, run to its end. */
final class Program {
  private static final long PATIENCE_SECONDS = 120;

  private Program() {}

  /** What a finished run left. */
  record Done(int exit, String out, String err) {
    /** Itself, if it went well. */
    Done well() {
      if (exit != 0) {
        throw new AssertionError("exit status " + exit + ": " + out + err);
      }
      return this;
    }
  }

  static Done run(List<String> command) throws IOException, InterruptedException {
    Path out = Files.createTempFile("out-", ".txt");
    Path err = Files.createTempFile("err-", ".txt");
    try {
      ProcessBuilder builder = new ProcessBuilder(command);
      builder.environment().keySet().removeIf(name -> name.startsWith("JAVA"));
      Process process = builder.redirectOutput(out.toFile()).redirectError(err.toFile()).start();
      process.getOutputStream().close();
      if (!process.waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS)) {
        process.destroyForcibly();
        throw new AssertionError(command + " did not end");
      }
      return new Done(process.exitValue(), read(out), read(err));
    } finally {
      Files.delete(out);
      Files.delete(err);
    }
  }

  private static String read(Path file) throws IOException {
    return new String(Files.readAllBytes(file), StandardCharsets.UTF_8);
  }
}
