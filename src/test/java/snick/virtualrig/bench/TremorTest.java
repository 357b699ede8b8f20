package snick.virtualrig.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;
import snick.virtualrig.settings.HandSettings;

class TremorTest {
  private static final int SAMPLES = 60_000;
  private static final double STEP_SECONDS = 2e-3;

  private static double[] series(double rms) {
    Tremor tremor = new Tremor(HandSettings.CALM.withTremorGramForce(rms), new Random(11));
    double[] values = new double[SAMPLES];
    for (int i = 0; i < SAMPLES; i++) {
      values[i] = tremor.advance(STEP_SECONDS);
    }
    return values;
  }

  /** Power at one frequency by the sum of its definition, as a share of the whole. */
  private static double share(double[] values, double fromHertz, double toHertz) {
    double all = 0;
    for (double value : values) {
      all += value * value / SAMPLES;
    }
    double resolution = 1 / (SAMPLES * STEP_SECONDS);
    double inBand = 0;
    for (double hertz = fromHertz; hertz < toHertz; hertz += resolution) {
      inBand += power(values, hertz);
    }
    return inBand / all;
  }

  private static double power(double[] values, double hertz) {
    double cosine = 0;
    double sine = 0;
    for (int i = 0; i < SAMPLES; i++) {
      double angle = 2 * Math.PI * hertz * i * STEP_SECONDS;
      cosine += values[i] * Math.cos(angle);
      sine += values[i] * Math.sin(angle);
    }
    double scale = 1.0 / SAMPLES;
    return 2 * scale * scale * (cosine * cosine + sine * sine);
  }

  @Test
  void hasTheRmsAskedFor() {
    double sum = 0;
    double[] values = series(1.5);
    for (double value : values) {
      sum += value * value;
    }
    assertThat(Math.sqrt(sum / SAMPLES)).isCloseTo(1.5, within(0.02));
  }

  @Test
  void liesBetweenEightAndTwelveHertz() {
    assertThat(share(series(1), 7.9, 12.1)).isGreaterThan(0.99);
  }

  @Test
  void noneAskedForIsNone() {
    assertThat(series(0)).containsOnly(0);
  }
}
