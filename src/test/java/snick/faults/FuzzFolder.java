package snick.faults;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;

/** A folder in memory where the system has one, else a temporary one; gone when the JVM ends. */
final class FuzzFolder {
  private FuzzFolder() {}

  static Path make(String name) {
    Path memory = Path.of("/dev/shm");
    try {
      Path folder =
          Files.isWritable(memory)
              ? Files.createTempDirectory(memory, "snick-" + name)
              : Files.createTempDirectory("snick-" + name);
      Runtime.getRuntime().addShutdownHook(new Thread(() -> empty(folder), "tidy-" + name));
      return folder;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Removes a folder and all in it. */
  static void empty(Path folder) {
    if (Files.notExists(folder)) {
      return;
    }
    try (Stream<Path> all = Files.walk(folder)) {
      List<Path> deepestFirst = all.sorted(Comparator.reverseOrder()).toList();
      for (Path path : deepestFirst) {
        Files.deleteIfExists(path);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
