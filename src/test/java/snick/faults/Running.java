package snick.faults;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.function.Predicate;
import snick.SharedClasses;

/**
 * The shipped jar at work, its standard output and errors together line by line. Locks and
 * temporary files lie in {@code folder}, so that nothing outside is touched.
 */
final class Running implements AutoCloseable {
  private static final Path JAR =
      Path.of(System.getProperty("snick.jar", "target/snick.jar")).toAbsolutePath();
  private static final long PATIENCE_SECONDS = 60;

  private final Process process;
  private final Thread reading;
  private final List<String> lines = new ArrayList<>();
  private final CountDownLatch outputEnded = new CountDownLatch(1);

  private Running(Process process) {
    this.process = process;
    this.reading = new Thread(this::read, "output");
    reading.setDaemon(true);
    reading.start();
  }

  /** Starts {@code snick arguments}. */
  static Running snick(Path folder, String... arguments) throws IOException {
    return start(folder, List.of(), arguments);
  }

  /** Starts {@code snick arguments} with further options of Java. */
  static Running start(Path folder, List<String> options, String... arguments) throws IOException {
    return by(List.of(), folder, options, arguments);
  }

  /** The same, started by another program that becomes it. */
  static Running by(List<String> starter, Path folder, List<String> options, String... arguments)
      throws IOException {
    List<String> command = new ArrayList<>(starter);
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(List.of("-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-Xmx200m"));
    command.addAll(SharedClasses.options());
    command.add("-Djava.io.tmpdir=" + Files.createDirectories(folder.resolve("tmp")));
    command.addAll(options);
    command.addAll(List.of("-jar", JAR.toString()));
    command.addAll(List.of(arguments));
    ProcessBuilder builder = new ProcessBuilder(command).redirectErrorStream(true);
    builder.environment().remove("JAVA_TOOL_OPTIONS");
    builder.environment().put("XDG_RUNTIME_DIR", folder.resolve("run").toString());
    return new Running(builder.start());
  }

  private void read() {
    try (BufferedReader reader =
        new BufferedReader(
            new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))) {
      for (String line = reader.readLine(); line != null; line = reader.readLine()) {
        add(line);
      }
    } catch (IOException | UncheckedIOException e) {
      add("output ended: " + e.getMessage());
    } finally {
      outputEnded.countDown();
    }
  }

  private void add(String line) {
    synchronized (lines) {
      lines.add(line);
      lines.notifyAll();
    }
  }

  /** All lines so far. */
  List<String> lines() {
    synchronized (lines) {
      return List.copyOf(lines);
    }
  }

  /** The first line that contains {@code text}, awaited for a minute. */
  String await(String text) throws InterruptedException {
    return await(line -> line.contains(text), text);
  }

  /** The line of the count'th cut that is announced as JSON. */
  String awaitCut(int count) throws InterruptedException {
    List<String> cuts = new ArrayList<>();
    return await(
        line -> {
          if (line.startsWith("{")) {
            cuts.add(line);
          }
          return cuts.size() == count;
        },
        "cut " + count);
  }

  private String await(Predicate<String> wanted, String what) throws InterruptedException {
    long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(PATIENCE_SECONDS);
    int at = 0;
    synchronized (lines) {
      while (true) {
        for (; at < lines.size(); at++) {
          if (wanted.test(lines.get(at))) {
            return lines.get(at);
          }
        }
        long leftMillis = TimeUnit.NANOSECONDS.toMillis(end - System.nanoTime());
        if (leftMillis <= 0 || outputEnded.getCount() == 0) {
          throw new AssertionError("no '" + what + "' in " + lines);
        }
        lines.wait(Math.min(leftMillis, 100));
      }
    }
  }

  /** Types a line. */
  void type(String line) throws IOException {
    process.getOutputStream().write((line + "\n").getBytes(StandardCharsets.UTF_8));
    process.getOutputStream().flush();
  }

  long pid() {
    return process.pid();
  }

  boolean alive() {
    return process.isAlive();
  }

  /** Waits until it ends by itself, at most so long; whether it did. */
  boolean endsWithin(long millis) throws InterruptedException {
    return process.waitFor(millis, TimeUnit.MILLISECONDS);
  }

  /** All lines so far, its signals, and where its threads stand, which Java says when told to. */
  List<String> stacks() throws Exception {
    SystemProgram.demand("kill", "-QUIT", Long.toString(pid()));
    endsWithin(2000);
    List<String> all = new ArrayList<>(lines());
    all.addAll(Files.readAllLines(Path.of("/proc/" + pid() + "/status")));
    return all;
  }

  /** SIGKILL; afterwards {@link #lines} is complete, for the handle leaves its pipe open. */
  void kill() throws InterruptedException {
    process.toHandle().destroyForcibly();
    over();
  }

  /** SIGTERM; its exit status. */
  int terminate() throws InterruptedException {
    process.toHandle().destroy();
    return over();
  }

  /** Waits for its end; its exit status. */
  int over() throws InterruptedException {
    if (!process.waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS)) {
      process.destroyForcibly();
      throw new AssertionError("did not end: " + lines());
    }
    outputEnded.await(PATIENCE_SECONDS, TimeUnit.SECONDS);
    return process.exitValue();
  }

  @Override
  public void close() {
    process.destroyForcibly();
  }
}
