package snick;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.stream.Stream;

/** What took long to make, given to each test as its own. */
public final class FolderCopy {
  private FolderCopy() {}

  /** Lays all that is in one folder into another; what is there already may not be in both. */
  public static void lay(Path from, Path into) throws IOException {
    try (Stream<Path> all = Files.walk(from)) {
      for (Path file : all.toList()) {
        Path target = into.resolve(from.relativize(file));
        if (Files.isDirectory(file)) {
          Files.createDirectories(target);
        } else {
          Files.copy(file, target, StandardCopyOption.COPY_ATTRIBUTES);
        }
      }
    }
  }
}
