package snick.virtualrig;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import snick.force.budget.Calibration;
import snick.force.budget.Conditions;
import snick.force.budget.Coverage;
import snick.force.budget.DerivedForce;
import snick.force.budget.EdgeGeometry;
import snick.force.budget.Evaluation;
import snick.force.fit.DegreeRule;
import snick.force.mass.AirDensity;
import snick.force.mass.Gravity;
import snick.force.mass.Load;
import snick.force.mass.MassClass;
import snick.force.mass.ReferenceMass;
import snick.force.reading.CalibrationPlan;
import snick.force.reading.GuidedCalibration;
import snick.force.reading.GuidedState;
import snick.force.reading.HeldReading;
import snick.force.reading.RigSetting;
import snick.force.reading.Steadiness;
import snick.force.reading.SteadyReading;
import snick.quantity.Mass;
import snick.virtualrig.script.Action;
import snick.virtualrig.settings.Altered;
import snick.virtualrig.settings.ConverterSettings;
import snick.virtualrig.settings.Disturbance;
import snick.virtualrig.settings.FixtureSettings;
import snick.virtualrig.settings.RigSettings;
import snick.virtualrig.signal.SignalModel;

/**
 * 2,000 whole guided calibrations on the virtual rig's own chain: hanging, swinging, creep, hum,
 * drift, noise, filter, converter. Masses err within their class, gravity and air within what is
 * stated. Each calibration is then asked for one force at the end of its validity, after
 * sensitivity has changed with temperature and time as far as stated.
 */
class CalibrationCoverageTest {
  private static final int CALIBRATIONS = 2_000;
  private static final int[] GRAMS = {100, 200, 500};
  private static final Gravity GRAVITY = Gravity.at(48, 300);
  private static final RigSetting SETTING =
      new RigSetting("51a0000000000001", 128, ConverterSettings.USUAL.rate(), 1);

  private static final double PER_KELVIN = 1e-4;
  private static final double KELVIN = 3;
  private static final double PER_YEAR = 1e-3;
  private static final int VALID_DAYS = 180;
  private static final double DAYS_IN_A_YEAR = 365.25;

  private static final Conditions CONDITIONS =
      new Conditions(
          GRAVITY,
          AirDensity.standard(),
          new Conditions.Stability(
              PER_KELVIN, KELVIN, PER_YEAR, Optional.of(Duration.ofDays(VALID_DAYS))),
          EdgeGeometry.NOT_STATED);

  private static final List<Load> LOADS =
      Arrays.stream(GRAMS)
          .mapToObj(grams -> ReferenceMass.ofClass(MassClass.M1, Mass.ofGrams(grams)))
          .map(Load::of)
          .toList();

  /** A place with its air, a set of masses and a rig; all as they truly are. */
  private static final class Truth {
    private final Random random;
    private final double gravity;
    private final double air;
    private final double[] kilograms;
    private final RigSettings rig;

    Truth(long seed) {
      random = new Random(seed);
      gravity = GRAVITY.metresPerSecondSquared() * (1 + within(Gravity.MODEL_RELATIVE_HALF_WIDTH));
      air = 1.2 * (1 + within(0.1));
      kilograms =
          Arrays.stream(GRAMS)
              .mapToObj(Mass::ofGrams)
              .mapToDouble(m -> m.kilograms() + within(MassClass.M1.limit(m).kilograms()))
              .toArray();
      rig = RigSettings.USUAL.with(fixture(gravity)).with(warm(Disturbance.ORDINARY));
    }

    private static FixtureSettings fixture(double gravity) {
      return Altered.withGravity(FixtureSettings.BENCH, gravity);
    }

    /** The same half an hour after power-on: warm, but still wandering. */
    private static Disturbance warm(Disturbance cold) {
      return Altered.withWarmUpKelvin(cold, 0);
    }

    private double within(double halfWidth) {
      return halfWidth * (2 * random.nextDouble() - 1);
    }

    double newtons(double mass) {
      return mass * (1 - air / ReferenceMass.CONVENTIONAL_DENSITY) * gravity;
    }

    /** The bench takes the buoyancy of standard air; this mass weighs there what it does here. */
    Action hung(double mass) {
      double here = 1 - air / ReferenceMass.CONVENTIONAL_DENSITY;
      double there = 1 - 1.2 / ReferenceMass.CONVENTIONAL_DENSITY;
      return new Action.Hang(new Mass(mass * here / there));
    }

    Action hung(CalibrationPlan.Step step) {
      if (step instanceof CalibrationPlan.Step.PutOn on) {
        return hung(kilograms[LOADS.indexOf(on.load())]);
      }
      return step instanceof CalibrationPlan.Step.Rest rest
          ? hung(kilograms[LOADS.indexOf(rest.load())])
          : Action.Hang.nothing();
    }

    /** The rig at the end of the validity, on another day. */
    RigSettings later() {
      double years = VALID_DAYS / DAYS_IN_A_YEAR;
      double changed = 1 + within(PER_KELVIN * KELVIN) + within(PER_YEAR * years);
      ConverterSettings now = rig.converter();
      return rig.with(Altered.withScale(now, now.zeroCounts(), now.countsPerGramForce() * changed));
    }
  }

  private static SignalModel model(RigSettings rig, long seed) {
    return new SignalModel(rig, seed, cut -> {});
  }

  private static void perform(SignalModel model, Action action) {
    long then = model.finishedActions() + 1;
    model.perform(action);
    while (model.finishedActions() < then) {
      model.convert();
    }
  }

  private static Calibration calibrated(Truth truth, long seed) {
    SignalModel model = model(truth.rig, seed);
    CalibrationPlan plan = new CalibrationPlan(LOADS, 2, true, 20);
    GuidedCalibration guide =
        new GuidedCalibration(GuidedState.begin(plan, SETTING), Steadiness.USUAL);
    while (guide.phase() != GuidedCalibration.Phase.FINISHED) {
      if (guide.phase() == GuidedCalibration.Phase.WAITING_FOR_PERSON) {
        assertThat(guide.refused()).isEmpty();
        perform(model, truth.hung(guide.step().orElseThrow()));
        guide.confirm();
      }
      long nanos = model.nextNanos();
      guide.sample(nanos, model.convert());
    }
    return Evaluation.of(
            guide.state().data().orElseThrow(),
            CONDITIONS,
            new DegreeRule.Automatic(),
            Instant.parse("2026-01-02T03:04:05Z"))
        .calibration();
  }

  private static HeldReading read(SignalModel model, OptionalDouble noiseCounts) {
    SteadyReading steady = new SteadyReading(Steadiness.USUAL, noiseCounts);
    while (steady.reading().isEmpty()) {
      assertThat(steady.failure()).isEmpty();
      long nanos = model.nextNanos();
      steady.sample(nanos, model.convert());
    }
    return steady.reading().get();
  }

  /**
   * Whether the interval held the true force.
   *
   * @param byMean force from the mean of two seconds: all the uncertainty is the calibration's own
   * @param byOneSample force from one sample, whose noise is the larger part, as with a peak
   */
  private record Covered(boolean byMean, boolean byOneSample) {}

  private static Covered covered(long seed) {
    Truth truth = new Truth(seed);
    Calibration calibration = calibrated(truth, seed);
    SignalModel later = model(truth.later(), -seed);
    double mass = 0.03 + 0.46 * truth.random.nextDouble();
    HeldReading zero = read(later, OptionalDouble.empty());
    perform(later, truth.hung(mass));
    HeldReading loaded = read(later, OptionalDouble.of(zero.sdCounts()));
    double standing = loaded.meanCounts() - zero.meanCounts();
    double ofMeans = Math.sqrt(zero.meanVariance() + loaded.meanVariance());
    double ofOne = Math.sqrt(zero.meanVariance() + loaded.sdCounts() * loaded.sdCounts());
    double one = later.convert() - zero.meanCounts();
    double newtons = truth.newtons(mass);
    return new Covered(
        covers(calibration.derive(standing, ofMeans), newtons),
        covers(calibration.derive(one, ofOne), newtons));
  }

  private static boolean covers(DerivedForce derived, double newtons) {
    DerivedForce.Inside inside = (DerivedForce.Inside) derived;
    double expanded =
        Coverage.factor(Coverage.USUAL_PROBABILITY, inside.degreesOfFreedom())
            * inside.force().standardUncertainty().newtons();
    return Math.abs(inside.force().value().newtons() - newtons) <= expanded;
  }

  @Test
  void theStatedIntervalCoversTheTruth() {
    List<Covered> all =
        LongStream.rangeClosed(1, CALIBRATIONS)
            .parallel()
            .mapToObj(CalibrationCoverageTest::covered)
            .toList();
    double calibrations = all.size();
    assertThat(all.stream().filter(Covered::byMean).count() / calibrations).isBetween(0.93, 0.97);
    assertThat(all.stream().filter(Covered::byOneSample).count() / calibrations)
        .isBetween(0.93, 0.97);
  }
}
