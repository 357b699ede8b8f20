package snick.virtualrig.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.stream.Stream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import snick.virtualrig.Figures;
import snick.virtualrig.settings.Mechanics;
import snick.virtualrig.settings.Parting;
import snick.virtualrig.signal.Poles;

/** Against the closed form, and against figures of SciPy (README.md beside the data files). */
class OscillatorTest {
  private static final double STEP_SECONDS = 1e-4;

  /**
   * Unit step response of a second-order system and its first overshoot, exp(−πζ/√(1−ζ²)): any
   * handbook of control engineering, here from memory of Ogata, Modern Control Engineering,
   * "Transient response of second-order systems".
   */
  @Property(tries = 100)
  void stepResponseIsTheClosedForm(
      @ForAll @DoubleRange(min = 25, max = 350) double hertz,
      @ForAll @DoubleRange(min = 0.01, max = 0.4) double dampingRatio,
      @ForAll @IntRange(min = 10, max = 1000) int stepMicros) {
    double stepSeconds = stepMicros * 1e-6;
    Oscillator oscillator = new Oscillator(Mechanics.of(hertz, dampingRatio));
    double angular = 2 * Math.PI * hertz;
    double root = Math.sqrt(1 - dampingRatio * dampingRatio);
    double highest = 0;
    for (int step = 1; step <= 300; step++) {
      oscillator.advance(1, stepSeconds, false);
      double seconds = step * stepSeconds;
      double expected =
          1
              - Math.exp(-dampingRatio * angular * seconds)
                  * (Math.cos(angular * root * seconds)
                      + dampingRatio / root * Math.sin(angular * root * seconds));
      assertThat(oscillator.gramForce()).isCloseTo(expected, within(1e-9));
      highest = Math.max(highest, oscillator.gramForce());
    }
    assertThat(highest).isLessThanOrEqualTo(1 + Math.exp(-Math.PI * dampingRatio / root) + 1e-9);
  }

  @TestFactory
  Stream<DynamicTest> agreesWithTheReferenceLibrary() throws IOException {
    return Figures.rows("linear_responses.csv").stream()
        .map(row -> DynamicTest.dynamicTest(String.join(" ", row), () -> check(row)));
  }

  private static void check(String[] row) {
    double first = Double.parseDouble(row[1]);
    double second = Double.parseDouble(row[2]);
    int steps = (int) Math.round(Double.parseDouble(row[3]) / 1e3 / STEP_SECONDS);
    double expected = Double.parseDouble(row[4]);
    if (row[0].equals("poles")) {
      assertThat(afterPoles((int) first, second, steps)).isCloseTo(expected, within(3e-4));
    } else {
      Oscillator oscillator = new Oscillator(Mechanics.of(first, second));
      for (int i = 0; i < steps; i++) {
        oscillator.advance(input(row[0], (i + 0.5) * STEP_SECONDS), STEP_SECONDS, false);
      }
      assertThat(oscillator.gramForce()).isCloseTo(expected, within(2e-3));
    }
  }

  private static double input(String kind, double seconds) {
    Parting parting = Parting.of(Parting.Law.SMOOTH, 4);
    if (kind.equals("step")) {
      return 1;
    }
    return seconds < 0.012 ? 100 * seconds : 1.2 * parting.shareLeft(seconds - 0.012);
  }

  /** Level between two steps, from the means on both sides. */
  private static double afterPoles(int number, double seconds, int steps) {
    Poles poles = new Poles(number, seconds / STEP_SECONDS);
    double before = 0;
    for (int i = 0; i < steps; i++) {
      before = poles.pass(1);
    }
    return (before + poles.pass(1)) / 2;
  }

  /** Momentum: the mean over a step is the integral of the course, here summed finely. */
  @Test
  void theMeanOfAStepIsThatOfItsCourse() {
    Oscillator fine = new Oscillator(Mechanics.of(45, 0.03));
    Oscillator coarse = new Oscillator(Mechanics.of(45, 0.03));
    double sum = 0;
    for (int i = 0; i < 10_000; i++) {
      fine.advance(1, 1e-6, false);
      sum += fine.gramForce();
    }
    assertThat(coarse.advance(1, 1e-2, false)).isCloseTo(sum / 10_000, within(1e-4));
  }

  /** Without a force the energy falls in each step, by exp(−2ζωt) over whole swings. */
  @Test
  void dampingTakesItsShareOfTheEnergyAndNothingElseDoes() {
    Oscillator oscillator = new Oscillator(new Mechanics(50, 0.02, 0.3));
    oscillator.advance(1000, 1e-3, false);
    double swingSeconds = 1 / (50 * Math.sqrt(1 - 0.02 * 0.02));
    double before = oscillator.gramForce();
    for (int step = 0; step < 500; step++) {
      oscillator.advance(0, 10 * swingSeconds / 500, false);
    }
    double left = Math.exp(-0.02 * 2 * Math.PI * 50 * 10 * swingSeconds);
    assertThat(oscillator.gramForce()).isCloseTo(before * left, within(1e-9));
    for (int step = 0; step < 500; step++) {
      oscillator.advance(0, 10 * swingSeconds / 500, true);
    }
    assertThat(Math.abs(oscillator.gramForce()))
        .as("a hand that holds damps more")
        .isLessThan(before * left * left * left);
  }

  @Test
  void comesToRestAtTheForceThatStands() {
    Oscillator oscillator = new Oscillator(Mechanics.of(45, 0.03));
    oscillator.advance(100, 0.01, false);
    assertThat(oscillator.restsAt(100)).isFalse();
    for (int i = 0; i < 30_000; i++) {
      oscillator.advance(100, 1e-4, false);
    }
    assertThat(oscillator.restsAt(100)).isTrue();
    assertThat(oscillator.gramForce()).isEqualTo(100);
  }
}
