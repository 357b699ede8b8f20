package snick.cli.option;

import java.nio.file.Path;
import java.util.Optional;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Where the store lies: {@code --data}, else as set, else the XDG data directory. */
public final class DataDirectory {
  @Option(
      names = "--data",
      paramLabel = "DIR",
      description =
          "Directory of the store (default: as set, see snick settings, else $XDG_DATA_HOME/snick or"
              + " ~/.local/share/snick; on macOS ~/Library/Application Support/snick, on Windows"
              + " your local application data, folder snick).")
  private Path given;

  @Spec(Spec.Target.MIXEE)
  private CommandSpec command;

  /** The directory; not made yet. */
  public Path path() {
    return given != null
        ? given
        : settings().get(Setting.STORE).map(Path::of).orElseGet(OwnFolder.DATA::path);
  }

  /** What the person has set. */
  public Settings settings() {
    return Settings.of(command);
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
}
