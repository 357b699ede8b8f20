package snick.cut.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * A first-order lag delays a ramp by its time constant and the equal-area instant of a step by as
 * much: the integral of e^(−t/τ) from 0 is τ.
 */
class EqualAreaTest {
  private static final double PERIOD_SECONDS = 1e-3;
  private static final int READINGS = 400;
  private static final double BREAK_SECONDS = 0.2;

  @ParameterizedTest
  @CsvSource({"0.002,0", "0.005,0", "0.005,100", "0.010,300"})
  void aFirstOrderLagMovesTheInstantByItsTimeConstant(double tauSeconds, double slope) {
    double[] t = new double[READINGS];
    double[] y = new double[READINGS];
    double height = 1000;
    for (int i = 0; i < READINGS; i++) {
      t[i] = i * PERIOD_SECONDS;
      double since = t[i] - BREAK_SECONDS;
      // A ramp through `height` at the break, seen late; then the exponential fall.
      double ramp = height + slope * (since - tauSeconds);
      y[i] = since < 0 ? ramp : (height - slope * tauSeconds) * Math.exp(-since / tauSeconds);
    }
    boolean[] usable = new boolean[READINGS];
    Arrays.fill(usable, true);
    int last = (int) (BREAK_SECONDS / PERIOD_SECONDS) - 3;
    int bottom = (int) ((BREAK_SECONDS + 2.4 * tauSeconds) / PERIOD_SECONDS) + 1;
    Loading loading =
        new Loading(
            t,
            y,
            usable,
            PERIOD_SECONDS,
            1,
            0,
            new Loading.Ending(last, bottom, 2.197 * tauSeconds, Double.POSITIVE_INFINITY, 0),
            READINGS);
    double instant = new EqualArea(loading, 1).instant(last, y[last], slope);
    assertThat(instant - BREAK_SECONDS)
        .isCloseTo(tauSeconds, within(0.02 * tauSeconds + 0.1 * PERIOD_SECONDS));
  }
}
