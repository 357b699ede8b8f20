package snick.dist;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

/** A program that goes on; its lines can be awaited. */
final class Running implements AutoCloseable {
  private static final long PATIENCE_SECONDS = 60;

  private final Process process;
  private final BlockingQueue<String> lines = new LinkedBlockingQueue<>();
  private final List<String> seen = new ArrayList<>();

  private Running(Process process) {
    this.process = process;
    Thread reading = new Thread(this::read, "running-output");
    reading.setDaemon(true);
    reading.start();
  }

  static Running start(List<String> command) throws IOException {
    ProcessBuilder builder = new ProcessBuilder(command).redirectErrorStream(true);
    builder.environment().keySet().removeIf(name -> name.startsWith("JAVA"));
    return new Running(builder.start());
  }

  private void read() {
    try (BufferedReader reader =
        new BufferedReader(
            new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))) {
      reader.lines().forEach(lines::add);
    } catch (IOException | UncheckedIOException e) {
      lines.add("output ended: " + e.getMessage());
    }
  }

  /** The next line that contains {@code text}. */
  String await(String text) throws InterruptedException {
    while (true) {
      String line = lines.poll(PATIENCE_SECONDS, TimeUnit.SECONDS);
      if (line == null) {
        throw new AssertionError("no line with '" + text + "'; seen: " + seen);
      }
      seen.add(line);
      if (line.contains(text)) {
        return line;
      }
    }
  }

  /** Files below {@code root} that are mapped into its memory, named as they are seen there. */
  List<String> mapped(Path root) throws IOException {
    try (Stream<String> maps =
        Files.lines(Path.of("/proc", Long.toString(process.pid()), "maps"))) {
      return maps.filter(line -> line.contains("/"))
          .map(line -> line.substring(line.indexOf('/')))
          .map(file -> file.replaceFirst("^" + root, ""))
          .distinct()
          .toList();
    }
  }

  /** Where this machine sees a file that the program sees as {@code file}. */
  Path sees(String file) {
    return Path.of("/proc", Long.toString(process.pid()), "root", file);
  }

  /** SIGTERM; its exit status. */
  int terminate() throws InterruptedException {
    process.destroy();
    if (!process.waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS)) {
      throw new AssertionError("did not stop; seen: " + seen);
    }
    return process.exitValue();
  }

  @Override
  public void close() {
    process.destroyForcibly();
  }
}
