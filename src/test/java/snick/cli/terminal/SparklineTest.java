package snick.cli.terminal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import snick.cut.Trace;

class SparklineTest {
  @Test
  void drawsTheRampAndTheFall() {
    assertThat(Sparkline.of(trace(0, 10, 20, 40, 80, 0), 1, 80)).isEqualTo(" ▁▂▄█ ");
  }

  @Test
  void aCellThatFallsUnderLoadIsDrawnUpright() {
    assertThat(Sparkline.of(trace(0, -40, -80, 0), -1, 80)).isEqualTo(" ▄█ ");
  }

  @Test
  void aSinglePeakSurvivesCompression() {
    int[] counts = new int[1000];
    counts[501] = 100;
    assertThat(Sparkline.of(trace(counts), 1, 10)).contains("█").hasSize(10);
  }

  @Test
  void anEmptyOrFlatTraceIsNoTrouble() {
    assertThat(Sparkline.of(trace(), 1, 10)).isEmpty();
    assertThat(Sparkline.of(trace(5, 5), 1, 10)).hasSize(2);
  }

  private static Trace trace(int... counts) {
    return new Trace(new long[counts.length], counts, new boolean[counts.length], List.of());
  }
}
