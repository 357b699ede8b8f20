package snick.cli.cuts;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snick.cli.Main;
import snick.cli.terminal.ExitCode;

/** What is no recording is called what it is, and what to do instead is said. */
class AnalyzeRefusalTest {
  @ParameterizedTest
  @CsvSource({
    "demo-data,             demo-data is a directory",
    "demo-data/nothing.txt, no file demo-data/nothing.txt; to record from a rig",
    "README.md/log.txt,     README.md/log.txt cannot be read: Not a directory",
    "/dev/null,             /dev/null is a device or a pipe",
  })
  void namesTheReason(String file, String said) {
    StringWriter err = new StringWriter();
    int exit =
        Main.run(
            new PrintWriter(new StringWriter()), new PrintWriter(err), "analyze", file, "--json");
    assertThat(err.toString()).contains(said);
    assertThat(exit).isEqualTo(ExitCode.BAD_INPUT);
  }
}
