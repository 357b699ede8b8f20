package snick.virtualrig;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Objects;

/** Rows of a reference file beside the tests. */
public final class Figures {
  private Figures() {}

  /** The cells of each row but the heading. */
  public static List<String[]> rows(String name) throws IOException {
    try (BufferedReader reader =
        new BufferedReader(
            new InputStreamReader(
                Objects.requireNonNull(Figures.class.getResourceAsStream(name)),
                StandardCharsets.UTF_8))) {
      return reader.lines().skip(1).map(line -> line.split(",", -1)).toList();
    }
  }
}
