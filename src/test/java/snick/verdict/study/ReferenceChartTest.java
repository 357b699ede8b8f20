package snick.verdict.study;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static snick.InEnglish.told;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import snick.phrase.NotAccepted;
import snick.verdict.ChartErrorRates;
import snick.verdict.statistic.Readings;

class ReferenceChartTest {
  /** Baseline: the values of NIST/SEMATECH e-Handbook 6.3.2.2. */
  private static final Readings HANDBOOK =
      Readings.ofGramForce("lot A", 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1);

  /**
   * Five values with mean 50.10 and standard deviation 1.31: a 95 % prediction interval for one
   * more is 46.1 to 54.1 (Hahn and Meeker, Statistical Intervals; figures from memory).
   */
  @Test
  void limitsOfASingleValueAreItsPredictionInterval() {
    ReferenceLimits limits = new ReferenceLimits(5, 50.10, 1.31, 0.05);
    assertThat(limits.lower()).isCloseTo(46.1, within(0.05));
    assertThat(limits.upper()).isCloseTo(54.1, within(0.05));
  }

  /** With a long baseline they are the handbook's of a known scatter, at three sigma. */
  @Test
  void aLongBaselineLeavesTheLimitsOfKnownScatter() {
    double threeSigma = 0.0026997961;
    ReferenceLimits limits = new ReferenceLimits(2_000_000, 0, 1, threeSigma);
    assertThat(limits.upper()).isCloseTo(3, within(1e-4));
    assertThat(limits.upperRange()).isCloseTo(3 * Math.sqrt(2), within(1e-4));
    assertThat(limits.weightedHalfWidth(0.3, 1)).isCloseTo(0.9, within(1e-4));
    assertThat(limits.weightedHalfWidth(0.3, 500))
        .isCloseTo(
            new snick.force.check.EwmaChart(0, 1, 0.3, 3).chart(new double[500]).get(499).upper(),
            within(1e-4));
  }

  @Test
  void theHandbooksOwnValuesStandWithinTheirLimits() {
    ReferenceChart chart = ReferenceChart.of(HANDBOOK, HANDBOOK);
    assertThat(chart.signals()).isEmpty();
    assertThat(told(chart.reason().text()))
        .contains(": 0 signals; of as many cuts of an unchanged edge 0.02 would be false alarms")
        .contains("widened for a baseline of 10 cuts")
        .contains("a baseline of 20 cuts or more");
  }

  /**
   * Runs of 20 values of the baseline's own distribution: at most 5 % with a signal, and as many
   * signals as told; more in the bench {@code snick.verdict.ChartErrorRates}.
   */
  @ParameterizedTest
  @ValueSource(ints = {8, 20, 50})
  void anUnchangedEdgeIsSignalledAsOftenAsTold(int baseline) {
    ChartErrorRates.Rates rates = ChartErrorRates.widened(baseline, 0, 20_000);
    assertThat(rates.runsWithSignal()).isBetween(0.01, 0.05);
    assertThat(rates.signalsPerRun()).isCloseTo(0.05, within(0.012));
  }

  @Test
  void theErrorRatesCanBePrinted() {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ChartErrorRates.print(new PrintStream(out, true, StandardCharsets.UTF_8), 50);
    assertThat(out.toString(StandardCharsets.UTF_8).lines()).hasSize(5);
  }

  @Test
  void aJumpIsSignalledAsValueAndAsRange() {
    ReferenceChart chart =
        ReferenceChart.of(HANDBOOK, Readings.ofGramForce("lot A", 50.8, 72.5, 50.9));
    assertThat(chart.signals())
        .contains(
            new ReferenceChart.Signal(1, ReferenceChart.Limit.VALUE),
            new ReferenceChart.Signal(1, ReferenceChart.Limit.MOVING_RANGE),
            new ReferenceChart.Signal(2, ReferenceChart.Limit.MOVING_RANGE));
  }

  @Test
  void aDriftIsSignalledByTheWeightedMeanAlone() {
    ReferenceChart chart =
        ReferenceChart.of(HANDBOOK, Readings.ofGramForce("lot A", 53, 55, 56, 57, 57, 58, 58, 58));
    assertThat(chart.signals())
        .isNotEmpty()
        .extracting(ReferenceChart.Signal::limit)
        .containsOnly(ReferenceChart.Limit.WEIGHTED_MEAN);
  }

  @Test
  void theBaselineMustBeLongEnoughAndScatter() {
    Readings few = Readings.ofGramForce("lot A", 1, 2, 3);
    assertThatThrownBy(() -> ReferenceChart.of(few, HANDBOOK))
        .isInstanceOf(NotAccepted.class)
        .hasMessageContaining("lot A has 3 cuts, at least 8 are needed");
    Readings flat = Readings.ofGramForce("lot B", 5, 5, 5, 5, 5, 5, 5, 5);
    assertThatThrownBy(() -> ReferenceChart.of(flat, HANDBOOK))
        .isInstanceOf(NotAccepted.class)
        .hasMessageContaining("lot B does not scatter");
  }
}
