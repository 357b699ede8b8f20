package snick.cli;

import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.util.Map;

/** One JSON value a line, for programs. */
final class JsonLine {
  private JsonLine() {}

  /** Prints {@code value} as one line. */
  static void print(PrintWriter out, Map<String, ?> value) {
    try {
      out.println(JSON.std.asString(value));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
