package snick.cut.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a filter leaves of a motion, held against the filter's own integral, done numerically. */
class MotionTest {
  /** Variance behind one pole: its weight at two times, by how much the motion agrees there. */
  @ParameterizedTest
  @CsvSource({"ROUGH,0.002", "ROUGH,0.02", "ROUGH_QUICK,0.002", "ROUGH_QUICK,0.02"})
  void roughMotionBehindOnePole(Motion motion, double poleSeconds) {
    double step = poleSeconds / 40;
    int reach = 400;
    double variance = 0;
    for (int i = 0; i < reach; i++) {
      for (int j = 0; j < reach; j++) {
        double weights = Math.exp(-(i + j + 1) * step / poleSeconds);
        variance += weights * motion.correlation((i - j) * step);
      }
    }
    variance *= step * step / (poleSeconds * poleSeconds);
    assertThat(motion.leftBehind(poleSeconds)).isCloseTo(Math.sqrt(variance), within(0.005));
  }

  /** Amplitude of a wave of its frequency under a Gaussian weight. */
  @ParameterizedTest
  @CsvSource({"TREMOR_LOW,0.01", "TREMOR,0.02", "TREMOR_HIGH,0.005", "SWING,0.004"})
  void waveBehindGaussian(Motion motion, double spreadSeconds) {
    double sum = 0;
    double weights = 0;
    for (int i = -600; i <= 600; i++) {
      double t = i * spreadSeconds / 100;
      double weight = Math.exp(-0.5 * t * t / (spreadSeconds * spreadSeconds));
      sum += weight * Math.cos(2 * Math.PI * motion.hertz() * t);
      weights += weight;
    }
    assertThat(motion.leftBehind(spreadSeconds)).isCloseTo(sum / weights, within(1e-4));
  }
}
