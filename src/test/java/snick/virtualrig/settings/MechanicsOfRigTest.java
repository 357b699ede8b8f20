package snick.virtualrig.settings;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import snick.quantity.Force;
import snick.quantity.SampleRate;
import snick.virtualrig.bench.StickSlip;
import snick.virtualrig.bench.TrueCut;
import snick.virtualrig.script.Action;
import snick.virtualrig.signal.SignalModel;

/** Fixture, parting, remainder, unsteady hand and drift, as the readings show them. */
class MechanicsOfRigTest {
  private static final double PER_GRAM_FORCE = 1000;
  private static final RigSettings CLEAN =
      RigSettings.USUAL
          .with(HandSettings.MOTOR)
          .with(FixtureSettings.IDEAL)
          .with(Disturbance.NONE)
          .with(
              Altered.withScale(
                  Altered.withFilter(
                      ConverterSettings.USUAL.withRate(new SampleRate(1000)),
                      FilterShape.ofBoxes(1, 1)),
                  0,
                  PER_GRAM_FORCE));

  private final List<TrueCut> truths = new ArrayList<>();

  /** Readings in gf until the script is over and {@code more} seconds after. */
  private double[] readings(RigSettings rig, double seconds, Action... actions) {
    SignalModel model = new SignalModel(rig, 1, truths::add);
    Arrays.stream(actions).forEach(model::perform);
    double[] readings = new double[(int) Math.round(seconds * rig.converter().rate().hertz())];
    Arrays.setAll(readings, i -> model.convert() / PER_GRAM_FORCE);
    return readings;
  }

  private static RigSettings on(FixtureSettings fixture) {
    return CLEAN.with(fixture);
  }

  private int breakIndex(int event) {
    return (int) (truths.get(event).breakNanos() / 1_000_000);
  }

  /** A step of 200 gf on 45 Hz, ζ = 0.03: the first swing goes below zero by exp(−πζ/√(1−ζ²)). */
  @Test
  void aFixtureRingsAfterTheBreak() {
    RigSettings rig = on(FixtureSettings.IDEAL.with(Mechanics.of(45, 0.03)));
    double[] seen = readings(rig, 4, Action.Cut.ofGramForce(200, 100));
    int at = breakIndex(0);
    double lowest = Arrays.stream(seen, at, seen.length).min().orElseThrow();
    assertThat(lowest).isCloseTo(-200 * Math.exp(-Math.PI * 0.03), within(2.0));
    int crossings = 0;
    for (int i = at + 1; i < at + 400; i++) {
      crossings += seen[i - 1] > 0 != seen[i] > 0 ? 1 : 0;
    }
    assertThat(crossings).as("two each swing, 45 a second, for 0.4 s").isBetween(35, 37);
    assertThat(seen[seen.length - 1]).as("and comes to rest").isZero();
  }

  /** Before the break the reading lags by 2ζ/ω times the rate: the held damping counts. */
  @Test
  void aFixtureLagsBehindTheLoading() {
    Mechanics mechanics = new Mechanics(30, 0.02, 0.5);
    double[] rigid = readings(CLEAN, 2, Action.Cut.ofGramForce(300, 100));
    double[] seen =
        readings(on(FixtureSettings.IDEAL.with(mechanics)), 2, Action.Cut.ofGramForce(300, 100));
    double lag = 100 * 2 * 0.5 / (2 * Math.PI * 30);
    assertThat(rigid[1500] - seen[1500]).isCloseTo(lag, within(2e-3));
  }

  @ParameterizedTest
  @EnumSource(Parting.Law.class)
  void everyLawFallsFromAllToNothing(Parting.Law law) {
    Parting parting = Parting.of(law, 6);
    assertThat(parting.shareLeft(0)).isEqualTo(law == Parting.Law.AT_ONCE ? 0 : 1);
    assertThat(parting.shareLeft(0.003))
        .isCloseTo(
            switch (law) {
              case AT_ONCE -> 0;
              case LINEAR, SMOOTH -> 0.5;
              case VISCOELASTIC -> Math.exp(-1.5);
            },
            within(1e-12));
    assertThat(parting.shareLeft(parting.lengthSeconds())).isZero();
    readings(on(FixtureSettings.IDEAL.with(parting)), 3, Action.Cut.ofGramForce(100, 100));
    assertThat(truths.get(0).breakForce().gramForce()).isCloseTo(100, within(1e-9));
  }

  @Test
  void aRemainderStaysIntoTheNextLoadingAndThenSlipsOut() {
    Parting parting = Parting.linear(1).leaving(0.05, 0.5);
    double[] seen =
        readings(
            on(FixtureSettings.IDEAL.with(parting)),
            4,
            Action.Cut.ofGramForce(200, 200),
            new Action.Rest(0.2),
            Action.Cut.ofGramForce(100, 50));
    int at = breakIndex(0);
    assertThat(seen[at + 100]).isCloseTo(10, within(1e-3));
    assertThat(seen[at + 490] - seen[at + 550]).as("gone").isCloseTo(10 - 0.06 * 50, within(0.1));
    assertThat(truths.get(1).breakForce().gramForce()).isCloseTo(100, within(1e-9));
  }

  @Test
  void aHandCurvesAsItsSettingSays() {
    double[] even = readings(CLEAN, 4, Action.Cut.ofGramForce(200, 100));
    RigSettings curved = CLEAN.with(HandSettings.MOTOR.with(new HandSteadiness(1, 0, 0, 0, 1)));
    double[] seen = readings(curved, 4, Action.Cut.ofGramForce(200, 100));
    int at = breakIndex(1);
    assertThat(seen[at - 2] - seen[at - 12]).as("twice the rate").isCloseTo(2.0, within(0.02));
    assertThat(even[breakIndex(0) - 2] - even[breakIndex(0) - 12]).isCloseTo(1, within(0.01));
  }

  @Test
  void aHandPausesAsOftenAndLongAsItsSettingSays() {
    RigSettings pausing = CLEAN.with(HandSettings.MOTOR.with(new HandSteadiness(0, 3, 0.25, 0, 1)));
    readings(CLEAN, 4, Action.Cut.ofGramForce(200, 100));
    double[] seen = readings(pausing, 4, Action.Cut.ofGramForce(200, 100));
    assertThat(truths.get(1).breakNanos() - truths.get(0).breakNanos())
        .isCloseTo(750_000_000L, within(1_000_000L));
    int still = 0;
    for (int i = 100; i < breakIndex(1); i++) {
      still += seen[i] == seen[i - 1] ? 1 : 0;
    }
    assertThat(still).isBetween(730, 750);
  }

  @Test
  void aSlipLosesItsForceAtOnce() {
    HandSteadiness slipping = new HandSteadiness(0, 0, 0, 4, 10);
    StickSlip slips = new StickSlip(slipping, new Random(3));
    double sum = 0;
    int falls = 0;
    double before = 0;
    for (int i = 0; i < 100_000; i++) {
      double now = slips.advance(1e-3);
      sum += now;
      falls += now < before - 3.5 ? 1 : 0;
      before = now;
      assertThat(now).isBetween(-2.0, 2.0);
    }
    assertThat(falls).isBetween(970, 1030);
    assertThat(sum / 100_000).isCloseTo(0, within(0.02));
  }

  @Test
  void zeroDriftsEvenly() {
    double[] seen =
        readings(CLEAN.with(Altered.withDrift(Disturbance.NONE, 0.25)), 4, new Action.Rest(4));
    assertThat(seen[3999]).isCloseTo(1, within(2e-3));
  }

  /** A ramp passes every filter late by the delay that its shape states. */
  @Test
  void polesDelayARampByTheirTimeConstants() {
    FilterShape poles = new FilterShape(2, 3, 2, 1.5);
    assertThat(poles.delayPeriods()).isEqualTo(6);
    RigSettings slow = CLEAN.with(Altered.withFilter(CLEAN.converter(), poles));
    double[] quick = readings(CLEAN, 2, Action.Cut.ofGramForce(300, 100));
    double[] seen = readings(slow, 2, Action.Cut.ofGramForce(300, 100));
    double delay = (quick[1500] - seen[1500]) / 0.1;
    assertThat(delay).isCloseTo(6 - 0.5, within(0.05));
  }

  @Test
  void aPoleAloneIsSampledAtTheEndOfThePeriod() {
    RigSettings slow = CLEAN.with(Altered.withFilter(CLEAN.converter(), FilterShape.ofPoles(1, 4)));
    double[] seen =
        readings(slow, 5, Action.Hang.ofGrams(100), new Action.Rest(1), new Action.CutThread());
    int at = breakIndex(0);
    assertThat(seen[at + 8] / seen[at + 4]).isCloseTo(Math.exp(-1), within(1e-3));
  }

  /** An impulse on a mass: the first swing is its area times ω, less what damping takes. */
  @Test
  void aFlickMakesTheFixtureRing() {
    RigSettings rig = on(FixtureSettings.IDEAL.with(Mechanics.of(30, 0.02)));
    double[] seen =
        readings(rig, 3, new Action.Rest(0.5), new Action.Flick(Force.ofGramForce(100)));
    double impulse = 100 * 0.004 * 2 / Math.PI;
    double highest = Arrays.stream(seen).max().orElseThrow();
    assertThat(highest)
        .isCloseTo(impulse * 2 * Math.PI * 30 * Math.exp(-0.02 * Math.PI / 2), within(1.0));
    assertThat(seen[2999]).as("2.5 s later, nine decays").isCloseTo(0, within(0.01));
  }
}
