package snick.cli;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snick.cli.terminal.ExitCode;

/**
 * A wrong command line is answered by what is wrong, the line as it should be, and where to read.
 */
class WrongLineTest {
  private static String refusal(String... line) {
    Ran ran = Ran.command(line);
    assertThat(ran.exit()).isEqualTo(ExitCode.USAGE);
    assertThat(ran.out()).isEmpty();
    return ran.err();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "session start|session start|'snick session start' needs --blade LABEL: ",
        "cuts show|cuts show|'snick cuts show' needs ID: Id of the cut, as 'snick cuts list' shows it",
        "doctor --seconds|doctor|--seconds needs S: How long to look",
        "cuts list --limt 3|cuts list|'--limt' is no option of 'snick cuts list'; did you mean --limit",
        "cuts list --limit 1 --limit 2|cuts list|--limit N is said twice: say it once",
        "cuts list --limit x|cuts list|--limit N: 'x' is not a whole number",
        "cuts show x|cuts show|ID: 'x' is not a whole number",
        "place abc|place|MM: 'abc' is not a number",
        "place 35mm|place|MM: '35mm' is not a number: MM is a number alone, without a unit. ",
        "progress --margin 5N|progress|--margin GF: '5N' is not a number: GF is a number alone, without a unit. Largest difference that",
        "plot cut 1 2 -o a.svg|plot cut|'2' is more than is taken by 'snick plot cut'",
      })
  void theCommandsOwnUsageLineIsShownAndNotItsHelp(String line, String command, String complaint) {
    assertThat(refusal(line.split(" ")))
        .startsWith("snick: ")
        .contains(complaint)
        .containsOnlyOnce("Usage: snick " + command)
        .contains("Help with examples: snick " + command + " --help")
        .doesNotContain("Examples:", "--version");
  }

  @Test
  void aCountHasNoUnit() {
    assertThat(refusal("cuts", "show", "12x"))
        .contains("'12x' is not a whole number")
        .doesNotContain("unit");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "analyze x --counts-per-gf 1e308|--counts-per-gf 1.0E308 is outside 0.005 to 1.0E7",
        "analyze x --counts-per-gf 1e-300|--counts-per-gf 1.0E-300 is outside 0.005 to 1.0E7",
        "analyze x --counts-per-gf NaN|--counts-per-gf NaN is not above 0",
        "analyze x --u-counts-per-gf 1e300|--u-counts-per-gf 1.0E300 is outside 0 to 1.0E7",
        "run x --counts-per-gf 1e308|--counts-per-gf 1.0E308 is outside 0.005 to 1.0E7",
        "run --http 99999 x|--http 99999 is outside 0 to 65535",
        "run --http -1 x|--http -1 is outside 0 to 65535",
      })
  void aValueThatCannotBeIsRefusedBeforeAnythingBegins(String line, String complaint) {
    assertThat(refusal(line.split(" "))).contains(complaint).doesNotContain("\tat ");
  }

  @Test
  void aPortWithoutANameIsNotWaitedFor() {
    assertThat(refusal("run", "--wait", "--no-http", "")).contains("a port without a name");
  }

  @Test
  @EnabledOnOs({OS.LINUX, OS.MAC})
  void whatNeverEndsIsNotImported() {
    Ran ran = Ran.command("import", "/dev/zero");
    assertThat(ran.exit()).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(ran.err()).contains("/dev/zero is a device or a pipe, which may never end");
  }

  @Test
  void aMistypedCommandIsGuessed() {
    assertThat(refusal("port"))
        .contains("'port' is no command of 'snick'; did you mean ", "ports", "snick --help")
        .doesNotContain("Exit status");
    assertThat(refusal("cuts", "lits"))
        .contains("'lits' is no command of 'snick cuts'; did you mean ", "list");
  }

  @Test
  void whereACommandIsMissingTheyAreListed() {
    assertThat(refusal()).contains("Missing command", "virtual-rig", "Exit status");
    assertThat(refusal("cuts")).contains("Missing command", "set-aside");
  }

  @Test
  void whatWasTypedIsShownInert() {
    assertThat(refusal("cuts", "list", "--\u001b[2J")).doesNotContain("\u001b");
  }
}
