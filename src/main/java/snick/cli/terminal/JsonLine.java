package snick.cli.terminal;

import java.io.PrintWriter;
import java.util.Map;
import snick.json.Json;

/** One JSON value a line, for programs; read on a terminal it does no harm either. */
public final class JsonLine {
  private JsonLine() {}

  /** Prints {@code value} as one line, every member, also those that are null. */
  public static void print(PrintWriter out, Map<String, ?> value) {
    out.println(PlainText.inert(Json.whole(value)));
  }
}
