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
  private static final double RATE = 1000;
  private static final double CUT_SECONDS = 0.4123;
  private static final double RING_HERTZ = 60;
  private static final double DAMPING = 0.05;

  /** A step that becomes a damped cosine, averaged over a box of 4 samples; truth is known. */
  private static Trace trace(double stepCounts, double noise, int polarity, double samplesPerBox) {
    Random random = new Random(2);
    int size = 1500;
    long[] nanos = new long[size];
    int[] counts = new int[size];
    double box = samplesPerBox / RATE;
    for (int i = 0; i < size; i++) {
      double t = i / RATE;
      double sum = 0;
      for (int k = 0; k < 200; k++) {
        sum += truth(t - box * (k + 0.5) / 200);
      }
      nanos[i] = Math.round(t * 1e9);
      double level = 700 + polarity * stepCounts * sum / 200 + noise * random.nextGaussian();
      counts[i] = (int) Math.round(level);
    }
    return new Trace(nanos, counts, new boolean[size], List.of());
  }

  private static double truth(double seconds) {
    double since = seconds - CUT_SECONDS;
    if (since < 0) {
      return 1;
    }
    double omega = 2 * Math.PI * RING_HERTZ;
    return -0.1 * Math.exp(-DAMPING * omega * since) * Math.sin(omega * since);
  }

  @Test
  void recoversStepDelayFallAndRing() {
    for (int polarity : new int[] {1, -1}) {
      StepResponse response = StepResponse.of(trace(80_000, 20, polarity, 4), polarity);
      assertThat(response.stepCounts()).isCloseTo(80_000, within(30.0));
      assertThat(response.noiseCounts()).isCloseTo(20, within(3.0));
      assertThat(response.delayNanos(CUT_SECONDS * 1e9).value() / 1e9)
          .as("a box of 4 samples delays by 2")
          .isCloseTo(0.002, within(0.0003));
      assertThat(response.fallNanos().value())
          .isCloseTo(0.8 * 0.004 * 1e9, within(response.fallNanos().expanded()));
      assertThat(response.movementNanos().leastNanos()).isLessThan(0.002 * 1e9);
      assertThat(response.movementNanos().mostNanos()).isGreaterThan(0.002 * 1e9);
      assertThat(response.samplesPerSecond()).isCloseTo(RATE, within(1e-6));
      assertThat(response.overshoot()).isBetween(0.06, 0.1);
      StepResponse.Ring ring = response.ring().orElseThrow();
      assertThat(ring.hertz().value()).isCloseTo(RING_HERTZ, within(0.1));
      assertThat(ring.dampingRatio().value()).isCloseTo(DAMPING, within(0.001));
    }
  }

  @Test
  void refusesATraceWithoutAClearStep() {
    assertThatThrownBy(() -> StepResponse.of(trace(50, 20, 1, 4), 1))
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
    StepResponse response = StepResponse.of(trace(80_000, 20, 1, 4), 1);
    DynamicCheck good = DynamicCheck.of(calibration, response, load, new Peak(79_000, 80_000, 200));
    assertThat(good.agrees()).isTrue();
    assertThat(good.relativeError()).isCloseTo(1 / (1 - 1.5e-4) - 1, within(1e-9));
    assertThat(good.observedNewtons()).isLessThan(good.estimated().value().newtons());
    DynamicCheck bad = DynamicCheck.of(calibration, response, load, new Peak(79_000, 82_000, 200));
    assertThat(bad.agrees()).isFalse();
  }
}
