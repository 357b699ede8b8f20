package snick.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import snick.SharedClasses;

/** The shipped jar, run as a person would run it. */
public final class Jar {
  private static final Path JAR = Path.of(System.getProperty("snick.jar", "target/snick.jar"));
  private static final long PATIENCE_SECONDS = 60;

  /**
   * Locks of this process's tests alone: another's terminal may get the number of one that went.
   */
  private static final Path RUNTIME =
      Path.of("target", "run-" + ProcessHandle.current().pid()).toAbsolutePath();

  private final Path java;
  private final List<String> options;

  private Jar(Path java, List<String> options) {
    this.java = java;
    this.options = options;
  }

  /** On the Java that runs the tests, with the options of the launcher. */
  public static Jar onThisJava(String... more) {
    List<String> options = new ArrayList<>(List.of("-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC"));
    options.addAll(SharedClasses.options());
    options.addAll(List.of(more));
    return new Jar(Path.of(System.getProperty("java.home")), options);
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
    return Live.start(builder(arguments));
  }

  /**
   * Starts on a pseudo-terminal of its own, which the program script makes. Ctrl-C does there what
   * it does for a person, also where the build was started in the background and ignores it.
   */
  public Live startOnTerminal(String... arguments) throws IOException {
    String line =
        builder(arguments).command().stream()
            .map(word -> "'" + word + "'")
            .collect(Collectors.joining(" "));
    String[] whole = {"env", "--default-signal=INT", "script", "-qec", line, "/dev/null"};
    return Live.start(apart(new ProcessBuilder(whole)));
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
    return apart(builder);
  }

  private static ProcessBuilder apart(ProcessBuilder builder) {
    builder.environment().put("XDG_RUNTIME_DIR", RUNTIME.toString());
    return builder;
  }

  @Override
  public String toString() {
    return java.getFileName().toString();
  }
}
