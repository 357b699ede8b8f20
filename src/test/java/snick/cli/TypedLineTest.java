package snick.cli;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TypedLineTest {
  @ParameterizedTest
  @CsvSource({
    "'', ''",
    "cuts list, cuts list",
    "help, --help",
    "help cuts list, cuts list --help",
    "--data d cuts list, cuts list --data d",
    "--data=d cuts list, cuts list --data=d",
    "--data d help run, run --data d --help",
    "--data d stage -- --new, stage --data d -- --new",
    "--data, --data",
    "--data d, --data d",
    "stage help, stage help"
  })
  void helpAndTheStoreMayComeFirst(String typed, String parsed) {
    String[] words = typed.isEmpty() ? new String[0] : typed.split(" ");
    assertThat(String.join(" ", TypedLine.ordered(words))).isEqualTo(parsed);
  }

  @Test
  void everyCommandStandsUnderOneHeading() {
    String help = Ran.command("help").out();
    assertThat(help)
        .containsSubsequence(
            "At the bench:", "Journal:", "Verdicts:", "Calibration:", "Sharing:", "Care:");
    TopCommand.NAMES.forEach(
        name -> assertThat(help).containsPattern("(?m)^  \\Q" + name + "\\E\\b"));
    assertThat(TopCommand.NAMES).doesNotHaveDuplicates();
    assertThat(Ran.command("help", "cuts", "list").out()).startsWith("Usage: snick cuts list");
  }
}
