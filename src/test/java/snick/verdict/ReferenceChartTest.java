package snick.verdict;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class ReferenceChartTest {
  /** Baseline: NIST/SEMATECH e-Handbook 6.3.2.2, published limits 55.8041 and 45.8159. */
  private static final Readings HANDBOOK =
      Readings.ofGramForce("lot A", 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1);

  @Test
  void theHandbooksOwnValuesStandWithinTheirLimits() {
    ReferenceChart chart = ReferenceChart.of(HANDBOOK, HANDBOOK);
    assertThat(chart.limits().upper()).isCloseTo(55.8041, within(1e-4));
    assertThat(chart.limits().lower()).isCloseTo(45.8159, within(1e-4));
    assertThat(chart.signals()).isEmpty();
    assertThat(chart.reason().text())
        .contains("10 cuts against limits of 45.8 gf to 55.8 gf: 0 signals");
  }

  @Test
  void aJumpIsSignalledAsValueAndAsRange() {
    ReferenceChart chart =
        ReferenceChart.of(HANDBOOK, Readings.ofGramForce("lot A", 50.8, 57.5, 50.9));
    assertThat(chart.signals())
        .contains(
            new ReferenceChart.Signal(1, ReferenceChart.Limit.VALUE),
            new ReferenceChart.Signal(1, ReferenceChart.Limit.MOVING_RANGE),
            new ReferenceChart.Signal(2, ReferenceChart.Limit.MOVING_RANGE));
  }

  @Test
  void aDriftIsSignalledByTheWeightedMeanAlone() {
    ReferenceChart chart =
        ReferenceChart.of(
            HANDBOOK, Readings.ofGramForce("lot A", 51.5, 52.5, 53, 53.5, 54, 54.5, 54.5));
    assertThat(chart.signals())
        .isNotEmpty()
        .extracting(ReferenceChart.Signal::limit)
        .containsOnly(ReferenceChart.Limit.WEIGHTED_MEAN);
  }

  @Test
  void theBaselineMustBeLongEnoughAndScatter() {
    Readings few = Readings.ofGramForce("lot A", 1, 2, 3);
    assertThatThrownBy(() -> ReferenceChart.of(few, HANDBOOK))
        .isInstanceOf(NotComparable.class)
        .hasMessageContaining("lot A has 3 cuts, at least 8 are needed");
    Readings flat = Readings.ofGramForce("lot B", 5, 5, 5, 5, 5, 5, 5, 5);
    assertThatThrownBy(() -> ReferenceChart.of(flat, HANDBOOK))
        .isInstanceOf(NotComparable.class)
        .hasMessageContaining("lot B does not scatter");
  }
}
