package snick.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.List;
import java.util.Map;

/** One command, run in this process, and what it left. */
public record Ran(int exit, String out, String err) {
  public static Ran command(String... arguments) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    int exit = Main.run(new PrintWriter(out), new PrintWriter(err), arguments);
    Ran ran = new Ran(exit, out.toString(), err.toString());
    assertThat(ran.out + ran.err)
        .as("a phrase that was not put into words")
        .doesNotContain("Phrase[");
    return ran;
  }

  /** Its only line of output as a JSON object. */
  public Map<String, Object> json() throws IOException {
    return JSON.std.mapFrom(out);
  }

  @SuppressWarnings("unchecked") // the JSON of a command is known to its test
  public static Map<String, Object> object(Map<String, Object> of, String name) {
    return (Map<String, Object>) of.get(name);
  }

  public static double number(Object value) {
    return ((Number) value).doubleValue();
  }

  public static double[] numbers(Map<String, Object> of, String name) {
    return ((List<?>) of.get(name)).stream().mapToDouble(Ran::number).toArray();
  }
}
