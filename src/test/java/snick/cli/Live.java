package snick.cli;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

/** A program that goes on; its output and errors can be awaited line by line. */
public final class Live implements AutoCloseable {
  private static final long PATIENCE_SECONDS = 60;

  private final Process process;
  private final BlockingQueue<String> lines = new LinkedBlockingQueue<>();
  private final List<String> seen = new ArrayList<>();

  private Live(Process process) {
    this.process = process;
    Thread reading = new Thread(this::readLines, "live-output");
    reading.setDaemon(true);
    reading.start();
  }

  /** Starts the program that {@code builder} describes. */
  public static Live start(ProcessBuilder builder) throws IOException {
    return new Live(builder.redirectErrorStream(true).start());
  }

  private void readLines() {
    try (BufferedReader reader =
        new BufferedReader(
            new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))) {
      reader.lines().forEach(lines::add);
    } catch (IOException | UncheckedIOException e) {
      lines.add("output ended: " + e.getMessage());
    }
  }

  /** The next line that contains one of {@code texts}. */
  public String await(String... texts) throws InterruptedException {
    while (true) {
      String line = lines.poll(PATIENCE_SECONDS, TimeUnit.SECONDS);
      if (line == null) {
        throw new AssertionError("no line with one of " + List.of(texts) + "; seen: " + seen);
      }
      seen.add(line);
      if (Stream.of(texts).anyMatch(line::contains)) {
        return line;
      }
    }
  }

  /** A line that was awaited before and contains {@code text}. */
  public String seen(String text) {
    return seen.stream().filter(line -> line.contains(text)).findFirst().orElseThrow();
  }

  public long pid() {
    return process.pid();
  }

  /** Types a line. */
  public void type(String line) throws IOException {
    process.getOutputStream().write((line + "\n").getBytes(StandardCharsets.UTF_8));
    process.getOutputStream().flush();
  }

  /** Waits for its end; its exit status. */
  public int ended() throws InterruptedException {
    if (!process.waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS)) {
      throw new AssertionError("did not end; seen: " + seen);
    }
    return process.exitValue();
  }

  /** SIGTERM; its exit status. */
  public int terminate() throws InterruptedException {
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
