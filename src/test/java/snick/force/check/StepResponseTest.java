package snick.force.check;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import snick.cut.Peak;
import snick.cut.Trace;
import snick.force.budget.Calibration;
import snick.force.mass.AirDensity;
import snick.force.mass.Gravity;
import snick.force.mass.Load;
import snick.force.mass.MassClass;
import snick.force.mass.ReferenceMass;
import snick.quantity.Mass;

class StepResponseTest {
  private static final double CUT_SECONDS = 1.4123;
  private static final double STEP_COUNTS = 80_000;
  private static final Chain CHAIN = new Chain(1000, 60, 0.05, 1, 4, 0);

  /**
   * A mass on a damped spring whose reading goes through boxes.
   *
   * @param rate samples per second
   * @param hertz damped frequency, Hz
   * @param boxes boxes in cascade, each of so many samples
   * @param partingSamples time of an even fall of the force, samples
   */
  private record Chain(
      double rate,
      double hertz,
      double damping,
      int boxes,
      int samplesEach,
      double partingSamples) {
    private static final int FINE = 64;

    /** Mean time of the impulse response: what a steady loading lags by, from any textbook. */
    double delaySeconds() {
      double omega = 2 * Math.PI * hertz / Math.sqrt(1 - damping * damping);
      return (boxes * samplesEach + partingSamples) / 2 / rate + 2 * damping / omega;
    }

    /** What has fallen of 1 after a cut, {@link #FINE} values a sample, for two seconds. */
    double[] fallen() {
      double[] values = new double[(int) (2 * rate * FINE)];
      double ratio = damping / Math.sqrt(1 - damping * damping);
      for (int i = 0; i < values.length; i++) {
        double turn = 2 * Math.PI * hertz * i / FINE / rate;
        values[i] = 1 - Math.exp(-ratio * turn) * (Math.cos(turn) + ratio * Math.sin(turn));
      }
      values = averaged(values, (int) Math.round(partingSamples * FINE));
      for (int box = 0; box < boxes; box++) {
        values = averaged(values, samplesEach * FINE);
      }
      return values;
    }

    /** Mean over the last {@code length} steps, by trapezia. */
    private static double[] averaged(double[] values, int length) {
      if (length == 0) {
        return values;
      }
      double[] areas = new double[values.length];
      for (int i = 1; i < areas.length; i++) {
        areas[i] = areas[i - 1] + (values[i - 1] + values[i]) / 2;
      }
      double[] means = new double[values.length];
      for (int i = 0; i < means.length; i++) {
        means[i] = (areas[i] - areas[Math.max(0, i - length)]) / length;
      }
      return means;
    }

    /** Time at which so much has fallen, s after the cut. */
    double secondsAt(double share) {
      double[] fallen = fallen();
      int i = 0;
      while (fallen[i] < share) {
        i++;
      }
      return i / rate / FINE;
    }

    Trace trace(double noise, int polarity, double cutSeconds) {
      Random random = new Random(2);
      double[] fallen = fallen();
      int size = (int) (4.5 * rate);
      long[] nanos = new long[size];
      int[] counts = new int[size];
      for (int i = 0; i < size; i++) {
        double t = i / rate;
        int at = (int) Math.round((t - cutSeconds) * rate * FINE);
        double left = at < 0 ? 1 : at < fallen.length ? 1 - fallen[at] : 0;
        nanos[i] = Math.round(t * 1e9);
        counts[i] =
            (int) Math.round(700 + polarity * STEP_COUNTS * left + noise * random.nextGaussian());
      }
      return new Trace(nanos, counts, new boolean[size], List.of());
    }
  }

  @Test
  void recoversStepDelayFallAndRing() {
    for (int polarity : new int[] {1, -1}) {
      StepResponse response = StepResponse.of(CHAIN.trace(20, polarity, CUT_SECONDS), polarity);
      assertThat(response.stepCounts()).isCloseTo(STEP_COUNTS, within(30.0));
      assertThat(response.noiseCounts()).isCloseTo(20, within(3.0));
      assertThat(response.delayNanos(CUT_SECONDS * 1e9).value() / 1e9)
          .as("2 ms of the box, 0.26 ms of the fixture")
          .isCloseTo(0.00226, within(0.00002));
      assertThat(response.fallNanos().value() / 1e9)
          .isCloseTo(
              CHAIN.secondsAt(0.9) - CHAIN.secondsAt(0.1),
              within(response.fallNanos().expanded() / 1e9));
      assertThat(response.samplesPerSecond()).isCloseTo(1000, within(1e-6));
      assertThat(response.swing().overshoot())
          .as("a box of 4 samples takes a tenth of the first swing")
          .isBetween(0.7, Math.exp(-Math.PI * 0.05));
      StepResponse.Ring ring = response.swing().ring().orElseThrow();
      assertThat(ring.hertz().value()).isCloseTo(60, within(0.1));
      assertThat(ring.dampingRatio().value()).isCloseTo(0.05, within(0.001));
    }
  }

  @Test
  void delayAndItsBracketHoldOnFixturesDrawnAtRandom() {
    Random random = new Random(8);
    int chains = 40;
    int within2 = 0;
    for (int i = 0; i < chains; i++) {
      double rate = 80 * Math.pow(12.5, random.nextDouble());
      double hertz = 25 * Math.pow(14, random.nextDouble());
      double damping = 0.01 * Math.pow(40, random.nextDouble());
      int boxes = (hertz > rate / 2 ? 1 : 0) + random.nextInt(4);
      Chain chain = new Chain(rate, hertz, damping, boxes, 1, random.nextDouble());
      double cut = CUT_SECONDS + random.nextDouble() / chain.rate();
      double noise = 8 * Math.pow(50, random.nextDouble());
      StepResponse response = StepResponse.of(chain.trace(noise, 1, cut), 1);
      Estimated delay = response.delayNanos(cut * 1e9);
      double away =
          Math.abs(delay.value() - chain.delaySeconds() * 1e9) / delay.standardUncertainty();
      assertThat(away).as(chain.toString()).isLessThan(4);
      within2 += away <= 2 ? 1 : 0;
      assertThat(chain.delaySeconds() * 1e9)
          .as(chain.toString())
          .isBetween(response.movementNanos().leastNanos(), response.movementNanos().mostNanos());
    }
    assertThat(within2).isGreaterThanOrEqualTo((int) (0.93 * chains));
  }

  @Test
  void refusesATraceWithoutAClearStep() {
    Trace tooWeak = CHAIN.trace(STEP_COUNTS / 2, 1, CUT_SECONDS);
    assertThatThrownBy(() -> StepResponse.of(tooWeak, 1))
        .isInstanceOf(IllegalArgumentException.class);
    Trace tooShort =
        new Trace(new long[] {0, 1, 2}, new int[] {9, 9, 0}, new boolean[3], List.of());
    assertThatThrownBy(() -> StepResponse.of(tooShort, 1)).hasMessageContaining("at least 8");
  }

  @Test
  void comparesTheEstimateWithTheKnownForce() {
    Calibration calibration =
        Calibration.countsPerGramForce(400, Instant.parse("2026-01-02T03:04:05Z"));
    Load.Exerted load =
        Load.of(ReferenceMass.ofClass(MassClass.M1, Mass.ofGrams(200)))
            .exerted(Gravity.measured(9.80665, 0.0005), AirDensity.standard());
    StepResponse response = StepResponse.of(CHAIN.trace(20, 1, CUT_SECONDS), 1);
    DynamicCheck good = DynamicCheck.of(calibration, response, load, new Peak(79_000, 80_000, 200));
    assertThat(good.agrees()).isTrue();
    assertThat(good.relativeError()).isCloseTo(1 / (1 - 1.5e-4) - 1, within(1e-9));
    assertThat(good.observedNewtons()).isLessThan(good.estimated().value().newtons());
    DynamicCheck bad = DynamicCheck.of(calibration, response, load, new Peak(79_000, 82_000, 200));
    assertThat(bad.agrees()).isFalse();
  }
}
