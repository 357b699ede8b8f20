package snick.cut;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import org.junit.jupiter.api.Test;

/** What an estimator keeps from cut to cut does not show in its estimates. */
class BreakEstimatorTest {
  private static final double NOISE = 5;
  private static final Fall FALL = new Fall(94, 98, 94.6, 96.6, 1, 94, 98);
  private static final int[] HERTZ = {80, 10, 80, 320, 10, 40, 40, 320, 80, 10};

  @Test
  void rigsOfSeveralRatesInTurnAreEachEstimatedAsAlone() {
    BreakEstimator shared = new BreakEstimator();
    for (int i = 0; i < HERTZ.length; i++) {
      assertThat(estimate(shared, HERTZ[i], i))
          .isEqualTo(estimate(new BreakEstimator(), HERTZ[i], i));
    }
  }

  private static BreakEstimate estimate(BreakEstimator estimator, int hertz, int seed) {
    Samples s = ramp(hertz, new Random(seed));
    BreakEstimate line = LineEstimator.estimate(s, 41, FALL, 0, NOISE);
    return estimator.estimate(s, 41, FALL, 0, NOISE, line);
  }

  /** A ramp with noise and tremor that parts. */
  private static Samples ramp(int hertz, Random random) {
    SampleLog log = new SampleLog();
    for (int i = 0; i < 120; i++) {
      double loading = Math.max(0, Math.min(i, 95) - 40) * 30.0;
      double tremor = 20 * Math.sin(2 * Math.PI * 8 * i / hertz);
      double reading = (i > 95 ? 0 : loading + tremor) + NOISE * random.nextGaussian();
      log.add(i * 1_000_000_000L / hertz, (int) Math.round(reading), false);
    }
    return Samples.of(log, 0, 1, 1e9 / hertz, 0);
  }
}
