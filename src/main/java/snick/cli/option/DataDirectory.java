package snick.cli.option;

import java.nio.file.Path;
import java.util.Optional;
import picocli.CommandLine.Option;

/** Where the store lies: {@code --data}, else the XDG data directory. */
public final class DataDirectory {
  @Option(
      names = "--data",
      paramLabel = "DIR",
      description =
          "Directory of the store (default: $XDG_DATA_HOME/snick or ~/.local/share/snick).")
  private Path given;

  /** The directory; not made yet. */
  public Path path() {
    return given != null ? given : standard("XDG_DATA_HOME", ".local/share");
  }

  /** {@code message}; the commands in it that act on the store name this directory if typed. */
  public String in(String message) {
    return new NamedStore(Optional.ofNullable(given)).in(message);
  }

  /** Directory for locks: the XDG runtime directory, else inside the temporary folder. */
  public static Path runtime() {
    String runtime = System.getenv("XDG_RUNTIME_DIR");
    return runtime != null && !runtime.isEmpty()
        ? Path.of(runtime, "snick")
        : Path.of(System.getProperty("java.io.tmpdir"), "snick-" + System.getProperty("user.name"));
  }

  /** XDG Base Directory Specification: the variable if set and absolute, else below home. */
  private static Path standard(String variable, String belowHome) {
    String value = System.getenv(variable);
    Path base =
        value != null && value.startsWith("/")
            ? Path.of(value)
            : Path.of(System.getProperty("user.home"), belowHome);
    return base.resolve("snick");
  }
}
