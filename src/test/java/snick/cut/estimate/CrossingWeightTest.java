package snick.cut.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The weighing by the rate of rise against drawn pairs of force and rate. */
class CrossingWeightTest {
  private static final int DRAWS = 400_000;

  @ParameterizedTest
  @CsvSource({"2,0.8", "0.5,0.8", "0,-0.6", "-1,0.5", "12,0.9"})
  void halfTheDrawsCountByTheirRise(double rate, double correlation) {
    Random random = new Random(7);
    double weights = 0;
    double sum = 0;
    double square = 0;
    for (int i = 0; i < DRAWS; i++) {
      double a = random.nextGaussian();
      double force =
          correlation * a + Math.sqrt(1 - correlation * correlation) * random.nextGaussian();
      double weight = Math.max(0, rate + a);
      weights += weight;
      sum += weight * force;
      square += weight * force * force;
    }
    double moved = sum / weights;
    double mean = 0.5 * moved;
    double tossUp = 0.5 * square / weights + 0.5 - mean * mean;
    CrossingWeight weighed = CrossingWeight.of(100, 1, rate, 1, correlation);
    assertThat(weighed.mean()).isCloseTo(100 + mean, within(0.02));
    assertThat(weighed.variance()).isCloseTo(tossUp + 0.25 * moved * moved, within(0.03));
  }
}
