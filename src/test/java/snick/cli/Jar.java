package snick.cli;

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

/** The shipped jar, run as a person would run it. */
public final class Jar {
  private static final Path JAR = Path.of(System.getProperty("snick.jar", "target/snick.jar"));
  private static final long PATIENCE_SECONDS = 60;

  private final Path java;
  private final List<String> options;

  private Jar(Path java, List<String> options) {
    this.java = java;
    this.options = options;
  }

  /** On the Java that runs the tests. */
  public static Jar onThisJava(String... options) {
    return new Jar(Path.of(System.getProperty("java.home")), List.of(options));
  }

  /** On every Java installed beside the one that runs the tests, 17 or newer, itself included. */
  static List<Jar> onEveryJava() throws IOException {
    Path own = Path.of(System.getProperty("java.home")).toRealPath();
    List<Jar> jars = new ArrayList<>(List.of(new Jar(own, List.of())));
    try (Stream<Path> homes = Files.list(own.getParent())) {
      homes
          .filter(home -> Files.isExecutable(home.resolve("bin/java")))
          .filter(home -> !Files.isSymbolicLink(home) && !home.equals(own))
          .filter(home -> home.getFileName().toString().matches(".*-(17|2[1-9])-.*"))
          .forEach(home -> jars.add(new Jar(home, List.of())));
    }
    return jars;
  }

  /** What a finished run left. */
  public record Done(int exit, String out, String err) {}

  /** Runs to the end. */
  public Done run(String... arguments) throws IOException, InterruptedException {
    Path out = Files.createTempFile("snick-out", ".txt");
    Path err = Files.createTempFile("snick-err", ".txt");
    Process process =
        builder(arguments).redirectOutput(out.toFile()).redirectError(err.toFile()).start();
    process.getOutputStream().close();
    if (!process.waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS)) {
      process.destroyForcibly();
      throw new AssertionError("snick " + List.of(arguments) + " did not end");
    }
    return new Done(process.exitValue(), Files.readString(out), Files.readString(err));
  }

  /** Starts; its lines can be awaited. */
  public Live start(String... arguments) throws IOException {
    return new Live(builder(arguments).redirectErrorStream(true).start());
  }

  private ProcessBuilder builder(String... arguments) {
    List<String> command = new ArrayList<>();
    command.add(java.resolve("bin/java").toString());
    command.addAll(options);
    command.add("-jar");
    command.add(JAR.toString());
    command.addAll(List.of(arguments));
    ProcessBuilder builder = new ProcessBuilder(command);
    builder.environment().remove("JAVA_TOOL_OPTIONS");
    return builder;
  }

  @Override
  public String toString() {
    return java.getFileName().toString();
  }

  /** A run that goes on. */
  public static final class Live implements AutoCloseable {
    private final Process process;
    private final BlockingQueue<String> lines = new LinkedBlockingQueue<>();
    private final List<String> seen = new ArrayList<>();

    private Live(Process process) {
      this.process = process;
      Thread reading = new Thread(this::readLines, "jar-output");
      reading.setDaemon(true);
      reading.start();
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

    /** The next line that contains {@code text}. */
    public String await(String text) throws InterruptedException {
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
}
