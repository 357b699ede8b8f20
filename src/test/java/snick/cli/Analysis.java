package snick.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.util.List;

/** The analyze command, run inside the tests' own process. */
public final class Analysis {
  private Analysis() {}

  /** Its JSON lines for {@code file}. */
  public static List<String> jsonLines(Path file, double countsPerGramForce) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    int exit =
        Main.run(
            new PrintWriter(out),
            new PrintWriter(err),
            "analyze",
            file.toString(),
            "--counts-per-gf",
            Double.toString(countsPerGramForce),
            "--json");
    assertThat(exit).as(err.toString()).isZero();
    return out.toString().lines().toList();
  }
}
