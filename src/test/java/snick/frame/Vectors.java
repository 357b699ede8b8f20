package snick.frame;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;

/** Reads the figures that src/test/resources/snick/frame/SOURCES.md describes. */
public final class Vectors {
  private Vectors() {}

  /** The rows of a file, without its heading, cut at commas outside quotation marks. */
  public static List<String[]> rows(String file) {
    try (InputStream in = Vectors.class.getResourceAsStream(file)) {
      String all = new String(in.readAllBytes(), StandardCharsets.UTF_8);
      return all.lines().skip(1).map(Vectors::cells).toList();
    } catch (IOException e) {
      throw new UncheckedIOException(file, e);
    }
  }

  private static String[] cells(String row) {
    if (row.startsWith("\"")) {
      int close = row.indexOf('"', 1);
      return new String[] {row.substring(1, close), row.substring(close + 2)};
    }
    return row.split(",", -1);
  }
}
