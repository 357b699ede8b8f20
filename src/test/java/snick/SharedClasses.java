package snick;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** The class-data archive of the jar under test, which the build makes: a start takes less time. */
public final class SharedClasses {
  private SharedClasses() {}

  /** Options for the Java that runs the tests; none where no archive was made. */
  public static List<String> options() {
    Path archive = Path.of("target", "snick.jsa").toAbsolutePath();
    return Files.isReadable(archive)
        ? List.of("-XX:SharedArchiveFile=" + archive, "-Xlog:cds*=off")
        : List.of();
  }
}
