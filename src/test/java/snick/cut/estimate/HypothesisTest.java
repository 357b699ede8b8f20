package snick.cut.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/**
 * A hypothesis without motion and nearly without wander is a straight line: its forecast and the
 * variance of that are those of ordinary least squares (Draper and Smith, Applied Regression
 * Analysis, 1.4; from memory).
 */
class HypothesisTest {
  private static final int READINGS = 8;
  private static final double PERIOD_SECONDS = 0.0125;
  private static final double AHEAD_SECONDS = 0.03;

  @Test
  void withoutMotionOrWanderItIsALeastSquaresLine() {
    CourseModel model = new CourseModel(READINGS, PERIOD_SECONDS);
    Hypothesis line =
        new Hypothesis(model, Motion.NONE, new double[READINGS][READINGS], 0, 1e-6, 0);
    double[] y = {0.3, -0.4, 0.8, 0.1, -0.7, 0.9, 0.2, -0.1};
    double meanT = 0;
    double meanY = 0;
    for (int i = 0; i < READINGS; i++) {
      meanT += model.seconds(i) / READINGS;
      meanY += y[i] / READINGS;
    }
    double square = 0;
    double product = 0;
    for (int i = 0; i < READINGS; i++) {
      square += Math.pow(model.seconds(i) - meanT, 2);
      product += (model.seconds(i) - meanT) * (y[i] - meanY);
    }
    double forecast = meanY + product / square * (AHEAD_SECONDS - meanT);
    double variance = 1.0 / READINGS + Math.pow(AHEAD_SECONDS - meanT, 2) / square;

    double[] across = line.whiten(line.across(AHEAD_SECONDS, new double[READINGS], 1), 1);
    double[] white = line.whiten(y, 1);
    double mean = 0;
    double known = 0;
    for (int i = 0; i < READINGS; i++) {
      mean += across[i] * white[i];
      known += across[i] * across[i];
    }
    assertThat(mean).isCloseTo(forecast, within(1e-3));
    assertThat(line.prior(AHEAD_SECONDS, AHEAD_SECONDS, 1) - known)
        .isCloseTo(variance, within(1e-3));
  }
}
