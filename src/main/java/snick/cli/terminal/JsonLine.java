package snick.cli.terminal;

import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.util.Map;

/** One JSON value a line, for programs; read on a terminal it does no harm either. */
public final class JsonLine {
  private static final JSON WHOLE = JSON.std.with(JSON.Feature.WRITE_NULL_PROPERTIES);

  private JsonLine() {}

  /** Prints {@code value} as one line; members that are null are left out. */
  public static void print(PrintWriter out, Map<String, ?> value) {
    print(out, JSON.std, value);
  }

  /** Prints {@code value} as one line, every member, also those that are null. */
  public static void printWhole(PrintWriter out, Map<String, ?> value) {
    print(out, WHOLE, value);
  }

  private static void print(PrintWriter out, JSON json, Map<String, ?> value) {
    try {
      out.println(PlainText.inert(json.asString(value)));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
