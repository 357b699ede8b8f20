package snick.dist;

import java.io.IOException;
import java.nio.file.FileSystem;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.PathMatcher;
import java.nio.file.StandardCopyOption;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;

/**
 * Copies a jar without some of its files. What stays is copied as it lies there: compressing it
 * again, once for each package, would take several times as long as all else in laying out. Runs in
 * the build only.
 */
public final class JarWithout {
  private static final String BUT = "but";

  private final List<PathMatcher> leftOut;
  private final List<PathMatcher> kept;

  private JarWithout(List<PathMatcher> leftOut, List<PathMatcher> kept) {
    this.leftOut = leftOut;
    this.kept = kept;
  }

  /**
   * Copies it.
   *
   * @param arguments the jar; the new jar; patterns of what is left out; after the word {@code but}
   *     patterns of what is kept all the same
   */
  public static void main(String[] arguments) throws IOException {
    Path jar =
        Files.copy(
            Path.of(arguments[0]), Path.of(arguments[1]), StandardCopyOption.REPLACE_EXISTING);
    List<String> patterns = List.of(arguments).subList(2, arguments.length);
    int but = patterns.contains(BUT) ? patterns.indexOf(BUT) : patterns.size();
    try (FileSystem inside = FileSystems.newFileSystem(jar)) {
      new JarWithout(
              matchers(inside, patterns.subList(0, but)),
              matchers(inside, patterns.subList(but, patterns.size())))
          .thin(inside.getPath("/"));
    }
  }

  private static List<PathMatcher> matchers(FileSystem inside, List<String> patterns) {
    return patterns.stream().map(pattern -> inside.getPathMatcher("glob:/" + pattern)).toList();
  }

  private void thin(Path root) throws IOException {
    List<Path> all;
    try (Stream<Path> found = Files.walk(root)) {
      all = found.filter(path -> !path.equals(root)).sorted(Comparator.reverseOrder()).toList();
    }
    for (Path path : all) {
      if (Files.isDirectory(path) ? empty(path) : goes(path)) {
        Files.delete(path);
      }
    }
  }

  private boolean goes(Path file) {
    return leftOut.stream().anyMatch(pattern -> pattern.matches(file))
        && kept.stream().noneMatch(pattern -> pattern.matches(file));
  }

  private static boolean empty(Path directory) throws IOException {
    try (Stream<Path> inside = Files.list(directory)) {
      return inside.findAny().isEmpty();
    }
  }
}
