package snick.dist;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/** The Debian packages that were built. */
final class DebianPackage {
  /** What Java calls a machine, by what Debian does. */
  static final Map<String, String> MACHINES =
      Map.of("amd64", "x86_64", "arm64", "aarch64", "armhf", "armhf");

  private DebianPackage() {}

  static Path of(String architecture) throws Exception {
    Path target = Path.of(System.getProperty("snick.jar")).toAbsolutePath().getParent();
    try (Stream<Path> files = Files.list(target)) {
      return files
          .filter(file -> file.toString().endsWith("_" + architecture + ".deb"))
          .findFirst()
          .orElseThrow();
    }
  }

  /** The one for the running machine. */
  static Path ofThisMachine() throws Exception {
    return of(Program.run(List.of("dpkg", "--print-architecture")).well().out().strip());
  }
}
