package snick.report.plot;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Font;
import java.awt.font.FontRenderContext;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import snick.phrase.Words;
import snick.verdict.comparison.Judge;
import snick.verdict.statistic.Readings;

/** What is written above and below the stages; forces are invented. */
class ProgressionPlotTest {
  /** Width of the field between the axes, in the picture's units: 94 to 1408 of 1512 of 900. */
  private static final double FIELD = 782;

  private static final Font FONT = new Font(Font.SANS_SERIF, Font.PLAIN, 14);

  private static double width(String line) {
    return FONT.getStringBounds(line, new FontRenderContext(null, true, true)).getWidth();
  }

  private static String change(double... later) {
    Readings before = Readings.ofGramForce("before", 93.9, 94.1, 94.0, 95.0, 93.0);
    return ProgressionPlot.change(
        Judge.plain().compare(before, Readings.ofGramForce("later", later)), Words.english());
  }

  @Test
  void aChangeThatRoundsToNothingHasNoSign() {
    assertThat(change(93.8, 94.0, 93.9, 94.9, 92.9)).isEqualTo("no difference shown, 0\u00a0%");
    assertThat(change(94.0, 94.2, 94.1, 95.1, 93.1)).isEqualTo("no difference shown, 0\u00a0%");
    assertThat(change(47, 46, 47, 48, 47)).isEqualTo("keener, −50\u00a0%");
  }

  @ParameterizedTest
  @ValueSource(ints = {2, 3, 4, 5, 6, 7, 8})
  void whatIsSaidOfAStageFitsItsColumn(int stages) {
    for (String change :
        List.of("no difference shown, −100\u00a0%", "no change that matters, −10\u00a0%")) {
      List<String> lines = ProgressionPlot.lines(change, stages, 4);
      assertThat(String.join(" ", lines)).isEqualTo(change);
      assertThat(lines).allSatisfy(line -> assertThat(width(line)).isLessThan(FIELD / stages));
    }
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "stropped|stropped",
        "coarse stone|coarse/stone",
        "fine stone, both sides|fine/stone, bo…",
        "supercalibrated|supercali…",
      })
  void aNameHasTwoLinesAtMost(String name, String lines) {
    assertThat(String.join("/", Shown.lines(name, 10, 2))).isEqualTo(lines);
  }
}
