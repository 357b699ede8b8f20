package snick.cli.bench;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFileAttributes;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import snick.force.check.CheckResult;

/** Owner and mode of the native libraries that this process has loaded (Linux: /proc/self/maps). */
final class NativeHealth {
  private static final Path MAPS = Path.of("/proc/self/maps");
  private static final String EXPECTED = "yours or root's, written by nobody else";

  private NativeHealth() {}

  /**
   * One line for each loaded library that came out of a jar; empty where the system does not say.
   */
  static List<HealthLine> lines() {
    List<HealthLine> lines = new ArrayList<>();
    for (Path library : loaded()) {
      if (Files.exists(library)) {
        lines.add(of(library));
      }
    }
    return lines;
  }

  private static Set<Path> loaded() {
    Set<Path> libraries = new TreeSet<>();
    Path java = Path.of(System.getProperty("java.home"));
    try (Stream<String> maps = Files.lines(MAPS)) {
      maps.map(NativeHealth::file)
          .filter(name -> name.endsWith(".so") || name.endsWith(".tmp"))
          .map(Path::of)
          .filter(path -> !path.startsWith(java) && !isOfTheSystem(path))
          .forEach(libraries::add);
    } catch (IOException | UncheckedIOException e) {
      return Set.of();
    }
    return libraries;
  }

  private static String file(String line) {
    int slash = line.indexOf('/');
    return slash < 0 ? "" : line.substring(slash);
  }

  private static boolean isOfTheSystem(Path path) {
    return Stream.of("/usr", "/lib", "/lib64", "/opt").anyMatch(path::startsWith);
  }

  private static HealthLine of(Path library) {
    try {
      PosixFileAttributes file = Files.readAttributes(library, PosixFileAttributes.class);
      PosixFileAttributes folder =
          Files.readAttributes(library.getParent(), PosixFileAttributes.class);
      String measured =
          "%s %s %s, folder %s"
              .formatted(
                  library,
                  PosixFilePermissions.toString(file.permissions()),
                  file.owner().getName(),
                  PosixFilePermissions.toString(folder.permissions()));
      return isSafe(file) && isSafe(folder)
          ? HealthLine.pass("native", measured, EXPECTED)
          : new HealthLine(
              "native",
              CheckResult.Grade.WARN,
              measured,
              EXPECTED,
              "other users of this machine can replace code that runs as you",
              "give this program a temporary folder of its own: TMPDIR=$XDG_RUNTIME_DIR and java"
                  + " -Djava.io.tmpdir=$XDG_RUNTIME_DIR, or PrivateTmp=yes in the service unit");
    } catch (IOException e) {
      return HealthLine.warn(
          "native", library + ": " + e.getMessage(), EXPECTED, "cannot be looked at", "");
    }
  }

  private static boolean isSafe(PosixFileAttributes file) {
    String owner = file.owner().getName();
    boolean owned = owner.equals("root") || owner.equals(System.getProperty("user.name"));
    return owned
        && !file.permissions().contains(PosixFilePermission.OTHERS_WRITE)
        && !file.permissions().contains(PosixFilePermission.GROUP_WRITE);
  }
}
