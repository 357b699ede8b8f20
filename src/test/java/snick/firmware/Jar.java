package snick.firmware;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import snick.SharedClasses;

/** The shipped jar in a process of its own. */
final class Jar implements AutoCloseable {
  private final Process process;
  private final BufferedReader out;

  private Jar(Process process) {
    this.process = process;
    this.out = process.inputReader();
  }

  /** Starts a command; what it says on standard error goes to a file in the folder. */
  static Jar run(Path folder, String... arguments) throws IOException {
    return new Jar(
        builder(folder, arguments)
            .redirectError(folder.resolve("jar-stderr.txt").toFile())
            .start());
  }

  /** Starts a command that asks on standard error. */
  static Jar talkingTo(Path folder, String... arguments) throws IOException {
    return new Jar(builder(folder, arguments).start());
  }

  private static ProcessBuilder builder(Path folder, String... arguments) {
    String jar = System.getProperty("snick.jar", "target/snick.jar");
    List<String> command =
        new ArrayList<>(
            List.of(
                ProcessHandle.current().info().command().orElse("java"),
                "-Xmx256m",
                "-XX:+UseSerialGC",
                "-XX:TieredStopAtLevel=1"));
    command.addAll(SharedClasses.options());
    command.addAll(List.of("-jar", jar));
    command.addAll(List.of(arguments));
    ProcessBuilder builder = new ProcessBuilder(command);
    builder.environment().put("XDG_RUNTIME_DIR", folder.toString());
    return builder;
  }

  /** What it says on standard error, line by line, up to its end. */
  Stream<String> talk() {
    return process.errorReader().lines();
  }

  /** Presses Enter. */
  void enter() {
    try {
      process.getOutputStream().write('\n');
      process.getOutputStream().flush();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The next line that it prints; empty at its end. */
  Stream<String> lines() {
    return out.lines();
  }

  /** Waits for its end; its exit status. */
  int exitStatus() throws InterruptedException, IOException {
    if (!process.waitFor(60, TimeUnit.SECONDS)) {
      throw new IOException("the jar does not end");
    }
    return process.exitValue();
  }

  /** Asks it to stop, as Ctrl-C does. */
  void interrupt() {
    process.destroy();
  }

  @Override
  public void close() {
    process.destroyForcibly();
  }
}
