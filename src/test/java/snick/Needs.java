package snick;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import org.junit.jupiter.api.Assumptions;

/**
 * What a test needs beyond Java. Where that is missing, the test is skipped and one line is kept
 * for the end of {@code mvn verify}: what is missing, and what is not proved without it.
 */
public final class Needs {
  /** File of those lines; set by the build, for both kinds of tests. */
  private static final String KEPT_IN = "snick.unproved";

  private Needs() {}

  /** A program that {@code .ci/run} installs: where {@code CI} is set, its absence is a failure. */
  public static void tool(boolean there, String missing, String unproved) {
    if (!there) {
      requireNoneInCi(missing, unproved);
      skip(missing, unproved);
    }
  }

  /** Something that not every machine allows. */
  public static void machine(boolean able, String missing, String unproved) {
    if (!able) {
      skip(missing, unproved);
    }
  }

  /** Fails where {@code CI} is set. */
  public static void requireNoneInCi(String missing, String unproved) {
    if (System.getenv("CI") != null) {
      throw new AssertionError(missing + ", which .ci/run installs; not proved: " + unproved);
    }
  }

  private static void skip(String missing, String unproved) {
    Assumptions.abort(kept(missing, unproved));
  }

  /** The line, kept. */
  public static String kept(String missing, String unproved) {
    String line = missing + ": not proved: " + unproved;
    String file = System.getProperty(KEPT_IN);
    if (file != null) {
      add(Path.of(file), line);
    }
    return line;
  }

  private static synchronized void add(Path file, String line) {
    try {
      if (Files.notExists(file) || !Files.readAllLines(file).contains(line)) {
        Files.createDirectories(file.toAbsolutePath().getParent());
        Files.writeString(file, line + "\n", StandardOpenOption.CREATE, StandardOpenOption.APPEND);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
