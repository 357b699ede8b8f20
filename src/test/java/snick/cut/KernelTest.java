package snick.cut;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The filters of the family as functions: area, centre, width, and gain for a sinusoid. */
class KernelTest {
  private static final int STEPS = 20_000;

  static Stream<Kernel> family() {
    return Kernel.FAMILY.stream();
  }

  private interface Weighing {
    double of(double distance);
  }

  private static double integral(Kernel kernel, Weighing weighing) {
    double step = 2 * kernel.half() / STEPS;
    double sum = 0;
    for (int i = 0; i < STEPS; i++) {
      double at = -kernel.half() + (i + 0.5) * step;
      sum += step * kernel.density(at) * weighing.of(at);
    }
    return sum;
  }

  @ParameterizedTest
  @MethodSource("family")
  void areaIsOneCentreNilAndVarianceAsStated(Kernel kernel) {
    assertThat(integral(kernel, at -> 1)).isCloseTo(1, within(1e-6));
    assertThat(integral(kernel, at -> at)).isCloseTo(0, within(1e-6));
    assertThat(integral(kernel, at -> at * at)).isCloseTo(kernel.variance(), within(1e-6));
    assertThat(kernel.half()).isLessThanOrEqualTo(Kernel.LONGEST_HALF);
  }

  @ParameterizedTest
  @MethodSource("family")
  void gainIsTheFourierIntegral(Kernel kernel) {
    for (double frequency : new double[] {0, 0.05, 0.16, 0.4}) {
      assertThat(kernel.gain(frequency))
          .isCloseTo(integral(kernel, at -> Math.cos(2 * Math.PI * frequency * at)), within(1e-6));
    }
  }

  /**
   * Cubic B-spline at its knots: 1/6, 2/3, 1/6 (de Boor, A Practical Guide to Splines, from
   * memory).
   */
  @Test
  void fourthOrderIsTheCubicSpline() {
    Kernel cubic = new Kernel(4, 1);
    assertThat(cubic.density(0)).isCloseTo(2.0 / 3, within(1e-12));
    assertThat(cubic.density(-1)).isCloseTo(1.0 / 6, within(1e-12));
    assertThat(cubic.density(1)).isCloseTo(1.0 / 6, within(1e-12));
    assertThat(cubic.density(2)).isZero();
  }

  @Test
  void tableSeesAStepAsTheFilterDoes() {
    LateNodes nodes = new LateNodes(0.16);
    KernelTable table = new KernelTable(new Kernel(1, 4), nodes);
    double[] weights = table.seen(0).weights;
    for (int i = 0; i < RampWindow.LATE; i++) {
      double sum = 0;
      for (int k = 0; k < nodes.size(); k++) {
        sum += weights[i * nodes.size() + k];
      }
      double time = RampWindow.LATE_FROM + i;
      double before = Math.max(0, Math.min(1, (2 - time) / 4));
      assertThat(sum).as("share of the filter before the break").isCloseTo(before, within(1e-9));
    }
  }
}
