package snick.cut.response;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * Falls of a mass on a damped spring, from the textbook solution: after a step from 1 to 0 at time
 * 0 it reads e^(−ζωt)·(cos ω't + ζω/ω'·sin ω't), ω' = ω√(1 − ζ²), and follows a ramp 2ζ/ω late.
 */
class LearnerTest {
  private static final double NOISE = 0.002;

  private final Random random = new Random(20261);

  private static double afterStep(double hertz, double ratio, double t) {
    double omega = 2 * Math.PI * hertz;
    double damped = omega * Math.sqrt(1 - ratio * ratio);
    return t < 0
        ? 1
        : Math.exp(-ratio * omega * t)
            * (Math.cos(damped * t) + ratio * omega / damped * Math.sin(damped * t));
  }

  /** A fall at a random phase of the clock, on a loading of one force a second. */
  private SeenFall fall(double hertz, double ratio, double perSecond) {
    int n = (int) (0.4 * perSecond);
    double[] seconds = new double[n];
    double[] counts = new double[n];
    double phase = random.nextDouble();
    double lag = 2 * ratio / (2 * Math.PI * hertz);
    for (int i = 0; i < n; i++) {
      seconds[i] = (i + phase) / perSecond - 0.15;
      double loading = seconds[i] < 0 ? seconds[i] - lag : 0;
      counts[i] =
          1e5 * (afterStep(hertz, ratio, seconds[i]) + loading + NOISE * random.nextGaussian());
    }
    return SeenFall.of(seconds, counts, 1e5, 1e5, NOISE * 1e5).orElseThrow();
  }

  private Response learned(int falls, double hertz, double ratio, double perSecond) {
    List<SeenFall> seen = new ArrayList<>();
    for (int i = 0; i < falls; i++) {
      seen.add(fall(hertz, ratio, perSecond));
    }
    return Learner.of(seen);
  }

  @Test
  void findsResonanceAndDampingOfATextbookFixture() {
    Ring ring = learned(20, 43, 0.03, 320).ring().orElseThrow();
    assertThat(ring.hertz()).isCloseTo(43, within(0.1));
    assertThat(ring.dampingRatio()).isCloseTo(0.03, within(0.001));
    assertThat(ring.hertzUncertainty()).isBetween(0.0, 0.5);
  }

  @Test
  void findsAStronglyDampedOneThatNoSingleFallShows() {
    Ring ring = learned(20, 30, 0.35, 80).ring().orElseThrow();
    assertThat(ring.hertzUncertainty()).isBetween(0.1, 1.4);
    assertThat(ring.hertz())
        .isCloseTo(30 * Math.sqrt(1 - 0.35 * 0.35), within(3 * ring.hertzUncertainty()));
    assertThat(ring.dampingRatio()).isBetween(0.35 / 1.5, 0.35 * 1.5);
  }

  @Test
  void seesNoRingBeyondHalfTheRate() {
    assertThat(learned(20, 120, 0.03, 80).ring()).isEmpty();
  }

  @Test
  void shapeIsThatOfTheStepAboutItsEqualAreaInstant() {
    Response response = learned(40, 43, 0.1, 320);
    double lag = 2 * 0.1 / (2 * Math.PI * 43);
    for (double t = -0.01; t < 0.06; t += 0.0007) {
      double expected = afterStep(43, 0.1, t + lag);
      assertThat(response.shapeAt(t)).as("at " + t).isCloseTo(expected, within(0.06));
    }
    assertThat(response.areaFrom(1)).isCloseTo(0, within(1e-9));
    assertThat(response.areaFrom(-1)).isCloseTo(1, within(1e-9));
  }

  @Test
  void sameFallsGiveTheSameDigits() {
    List<SeenFall> falls =
        List.of(
            fall(43, 0.1, 320),
            fall(43, 0.1, 320),
            fall(43, 0.1, 320),
            fall(43, 0.1, 320),
            fall(43, 0.1, 320));
    assertThat(Learner.of(falls)).isEqualTo(Learner.of(falls));
    assertThat(Learner.of(falls).id()).isEqualTo(Learner.of(falls).id());
  }

  @Test
  void fewFallsTeachNothing() {
    assertThat(learned(4, 43, 0.03, 320)).isEqualTo(Response.unknown());
    assertThat(Response.unknown().known()).isFalse();
  }
}
