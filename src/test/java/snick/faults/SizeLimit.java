package snick.faults;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import snick.Needs;

/**
 * A folder of a program whose files may not grow: RLIMIT_FSIZE, setrlimit(2), set on the running
 * program by prlimit(1) and taken back. Needs no rights; a quota fails alike (another error than
 * that of a full disk). Where there is no prlimit the test is skipped and says so.
 */
final class SizeLimit implements Room {
  private static final String NOTHING = "--fsize=1:";
  private static final String EVERYTHING = "--fsize=unlimited:";

  /** Enough for the index of a write-ahead log, which a reader of the store needs. */
  private static final String LITTLE = "--fsize=32768:";

  private final Path root;

  private SizeLimit(Path root) {
    this.root = root;
  }

  static SizeLimit of(Path folder) throws IOException {
    Needs.tool(
        SystemProgram.does("prlimit", EVERYTHING, "true"),
        "no prlimit (Debian: util-linux)",
        "a limit on the size of files");
    return new SizeLimit(Files.createDirectories(folder));
  }

  @Override
  public Path root() {
    return root;
  }

  @Override
  public void fill(Running... writers) {
    limit(NOTHING, writers);
  }

  @Override
  public void free(Running... writers) {
    limit(EVERYTHING, writers);
  }

  private static void limit(String limit, Running... writers) {
    for (Running writer : writers) {
      SystemProgram.demand("prlimit", "--pid", Long.toString(writer.pid()), limit);
    }
  }

  @Override
  public Running startedWithout(Path folder, String... words) throws IOException {
    return Running.by(List.of("prlimit", LITTLE), folder, List.of("-XX:-UsePerfData"), words);
  }

  @Override
  public void close() {
    // The limits ended with those they were set on.
  }
}
