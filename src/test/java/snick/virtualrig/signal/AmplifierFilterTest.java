package snick.virtualrig.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.Arrays;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import snick.virtualrig.Figures;
import snick.virtualrig.settings.FilterShape;

/** Against figures computed with NumPy, see README.md beside the data files. */
class AmplifierFilterTest {
  @TestFactory
  Stream<DynamicTest> stepResponseAgreesWithTheReference() throws IOException {
    return Figures.rows("sinc_step_response.csv").stream()
        .filter(row -> row[1].equals("inf"))
        .map(row -> DynamicTest.dynamicTest("order " + row[0], () -> checkStep(row)));
  }

  private static void checkStep(String[] row) {
    int order = Integer.parseInt(row[0]);
    AmplifierFilter filter = new AmplifierFilter(FilterShape.ofBoxes(order, 1), 63);
    for (int conversion = 0; conversion < order; conversion++) {
      assertThat(filter.afterSteadyPeriod(1))
          .as("after %d conversions", conversion + 1)
          .isCloseTo(Double.parseDouble(row[2 + conversion]), within(1e-10));
    }
    assertThat(filter.afterSteadyPeriod(1)).isCloseTo(1, within(1e-12));
  }

  @TestFactory
  Stream<DynamicTest> peakOfRampAndDropAgreesWithTheReference() throws IOException {
    return Figures.rows("sinc_peak_bias_ramp_drop.csv").stream()
        .map(
            row ->
                DynamicTest.dynamicTest(
                    "order " + row[0] + ", ramp of " + row[1] + " periods", () -> checkPeak(row)));
  }

  /**
   * The reference reads the ramp at the end of each of about 200 steps a period, which adds 0.5/200
   * of a period; ours is exact. The phases of the two grids differ as well. Hence a tolerance that
   * shrinks with the ramp.
   */
  private static void checkPeak(String[] row) {
    int steps = 64;
    double[] peaks = new double[steps];
    for (int phase = 0; phase < steps; phase++) {
      peaks[phase] = peak(Integer.parseInt(row[0]), Integer.parseInt(row[1]), steps, phase);
    }
    double tolerance = 1e-2 / Integer.parseInt(row[1]) + 1e-4;
    double sum = Arrays.stream(peaks).sum();
    assertThat(Arrays.stream(peaks).max().orElseThrow())
        .isCloseTo(Double.parseDouble(row[2]), within(tolerance));
    assertThat(Arrays.stream(peaks).min().orElseThrow())
        .isCloseTo(Double.parseDouble(row[3]), within(tolerance));
    assertThat(sum / steps).isCloseTo(Double.parseDouble(row[4]), within(tolerance));
  }

  private static double peak(int order, int rampPeriods, int steps, int phase) {
    AmplifierFilter filter = new AmplifierFilter(FilterShape.ofBoxes(order, 1), steps);
    double[] means = new double[steps];
    double peak = 0;
    int rampSteps = rampPeriods * steps;
    for (int period = 0; period < rampPeriods + order + 2; period++) {
      for (int step = 0; step < steps; step++) {
        int sinceOnset = period * steps + step - phase;
        boolean onRamp = sinceOnset >= 0 && sinceOnset < rampSteps;
        means[step] = onRamp ? (sinceOnset + 0.5) / rampSteps : 0;
      }
      peak = Math.max(peak, filter.afterPeriod(means));
    }
    return peak;
  }

  @Test
  void movingMeanOverFourPeriodsClimbsInFourEqualSteps() {
    AmplifierFilter filter = new AmplifierFilter(FilterShape.BOX, 16);
    for (double expected : new double[] {0.25, 0.5, 0.75, 1, 1}) {
      assertThat(filter.afterSteadyPeriod(1)).isCloseTo(expected, within(1e-12));
    }
  }

  @Test
  void steadyAndFollowedPeriodsAgree() {
    AmplifierFilter followed = new AmplifierFilter(FilterShape.SINC4, 32);
    AmplifierFilter steady = new AmplifierFilter(FilterShape.SINC4, 32);
    double[] means = new double[32];
    for (double level : new double[] {0, 3, 3, -7, 40, 40, 0}) {
      Arrays.fill(means, level);
      assertThat(followed.afterPeriod(means))
          .isCloseTo(steady.afterSteadyPeriod(level), within(1e-12));
    }
  }

  @Test
  void gainForSinesHasItsZerosAtWholeCycles() {
    assertThat(FilterShape.SINC4.gainAt(0)).isEqualTo(1);
    assertThat(FilterShape.SINC4.gainAt(1)).isCloseTo(0, within(1e-15));
    assertThat(FilterShape.BOX.gainAt(0.25)).isCloseTo(0, within(1e-15));
    assertThat(FilterShape.SINC4.gainAt(0.5))
        .as("(2/π)⁴")
        .isCloseTo(16 / Math.pow(Math.PI, 4), within(1e-15));
  }

  @Test
  void refusesAFilterOutsideItsRange() {
    assertThatThrownBy(() -> FilterShape.ofBoxes(6, 1)).hasMessageContaining("boxes");
  }
}
