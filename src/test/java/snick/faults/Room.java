package snick.faults;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/** A folder in which no more can be written when a test says so, and more again when it says so. */
interface Room extends AutoCloseable {
  /** The folder. */
  Path root();

  /** Leaves no byte for {@code writers}, which run. */
  void fill(Running... writers) throws IOException;

  /** Gives back what {@link #fill} took. */
  void free(Running... writers) throws IOException;

  /** Starts {@code snick words} without room; {@code folder} is its own. */
  Running startedWithout(Path folder, String... words) throws IOException;

  /** All files that were written into it. */
  default List<Path> files() throws IOException {
    try (Stream<Path> all = Files.walk(root())) {
      return all.filter(Files::isRegularFile).sorted().toList();
    }
  }

  @Override
  void close();
}
