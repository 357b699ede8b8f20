package snick.verdict;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class ReferenceChartTest {
  /**
   * NIST/SEMATECH e-Handbook 6.3.2.2. Published limits 55.8041 and 45.8159 use d₂ = 1.128; those of
   * the exact d₂ were computed.
   */
  @Test
  void individualsOfTheHandbook() {
    ReferenceChart chart =
        ReferenceChart.of(
            Readings.ofGramForce(
                "flow", 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1));
    assertThat(chart.meanGf()).isCloseTo(50.81, within(1e-12));
    assertThat(chart.limitsGf().high()).isCloseTo(55.80241168, within(1e-8));
    assertThat(chart.limitsGf().low()).isCloseTo(45.81758832, within(1e-8));
    assertThat(chart.movingRangeLimitGf()).isCloseTo(6.13382104, within(1e-8));
    assertThat(chart.limitsGf().high()).isCloseTo(55.8041, within(2e-3));
    assertThat(chart.signals()).isEmpty();
  }

  /** NIST/SEMATECH e-Handbook 6.3.2.4; its published lower limit is cut off, not rounded. */
  @Test
  void weightedMeansOfTheHandbook() {
    double[] x = {
      52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8,
      51.2, 52.6, 52.4, 53.6, 52.1
    };
    double[] published = {
      50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52,
      50.05, 49.38, 49.92, 50.73, 51.23, 51.94, 51.99
    };
    ReferenceChart chart = ReferenceChart.of(x, 50, 2.0539);
    for (int i = 0; i < published.length; i++) {
      assertThat(chart.ewmaGf().get(i)).isCloseTo(published[i], within(0.00501));
    }
    assertThat(chart.ewmaLimitsGf().high()).isCloseTo(52.588431738126616, within(1e-9));
    assertThat(chart.ewmaLimitsGf().low()).isCloseTo(47.4115, within(1e-4));
  }

  @Test
  void aJumpAndADriftAreSignalled() {
    double[] x = {100, 101, 99, 100, 101, 99, 100, 112, 102, 102.5, 102, 102.5, 102};
    ReferenceChart chart = ReferenceChart.of(x, 100, 1);
    assertThat(chart.signals())
        .contains(
            new ReferenceChart.Signal(7, ReferenceChart.Limit.VALUE),
            new ReferenceChart.Signal(7, ReferenceChart.Limit.MOVING_RANGE),
            new ReferenceChart.Signal(12, ReferenceChart.Limit.WEIGHTED_MEAN));
  }

  @Test
  void needsEightReadings() {
    assertThatThrownBy(() -> ReferenceChart.of(Readings.ofGramForce("lot A", 1, 2, 3)))
        .isInstanceOf(NotComparable.class)
        .hasMessageContaining("lot A has 3 cuts, at least 8 are needed");
  }
}
