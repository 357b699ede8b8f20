package snick.force.budget;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import snick.InEnglish;
import snick.force.SimulatedBench;
import snick.force.check.MassCheck;
import snick.force.fit.DegreeRule;
import snick.force.mass.AirDensity;
import snick.force.mass.Gravity;
import snick.force.mass.Load;
import snick.force.mass.MassClass;
import snick.force.mass.ReferenceMass;
import snick.force.reading.CalibrationData;
import snick.force.reading.CalibrationRun;
import snick.force.reading.Direction;
import snick.force.reading.HeldReading;
import snick.force.reading.RigSetting;
import snick.quantity.Mass;
import snick.quantity.SampleRate;

class EvaluationTest {
  private static final Instant MADE = Instant.parse("2026-01-02T03:04:05Z");
  private static final List<ReferenceMass> MASSES =
      SimulatedBench.classWeights(MassClass.M1, 20, 50, 100, 200, 500);
  private static final DegreeRule AUTO = new DegreeRule.Automatic();
  private static final RigSetting RISING = new RigSetting("rig", 128, new SampleRate(80), 1);
  private static final Conditions BARE =
      new Conditions(
          Gravity.measured(9.81, 0),
          AirDensity.standard(),
          new Conditions.Stability(0, 0, 0, Optional.empty()),
          EdgeGeometry.NOT_STATED);

  private static HeldReading at(double counts, int second) {
    long nanos = second * 1_000_000_000L;
    return new HeldReading(counts, 10, 160, nanos, nanos);
  }

  private static Load grams(double grams) {
    return Load.of(ReferenceMass.stated(grams + " g", Mass.ofGrams(grams), new Mass(0), 8000));
  }

  private static CalibrationRun.Loaded up(double grams, double counts, int second) {
    return new CalibrationRun.Loaded(grams(grams), Direction.UP, at(counts, second));
  }

  private static CalibrationRun.Loaded down(double grams, double counts, int second) {
    return new CalibrationRun.Loaded(grams(grams), Direction.DOWN, at(counts, second));
  }

  private static double figure(Evaluation evaluation, String name) {
    return evaluation.figures().stream()
        .filter(f -> InEnglish.told(f.name()).equals(name))
        .findFirst()
        .orElseThrow()
        .value();
  }

  /** Worked by hand from the definitions. */
  @Test
  void figuresOfMeritFollowTheirDefinitions() {
    CalibrationRun first =
        new CalibrationRun(
            at(100, 0),
            List.of(up(100, 1100, 1), up(200, 2110, 2), down(100, 1105, 3)),
            at(100, 4));
    CalibrationRun second =
        new CalibrationRun(
            at(100, 10),
            List.of(up(100, 1102, 11), up(200, 2110, 12), down(100, 1104, 13)),
            at(104, 14));
    CalibrationData.CreepHold hold =
        new CalibrationData.CreepHold(grams(200), List.of(at(2110, 20), at(2112, 320)));
    Evaluation evaluation =
        Evaluation.of(
            new CalibrationData(RISING, List.of(first, second), Optional.of(hold)),
            BARE,
            new DegreeRule.Fixed(1),
            MADE);
    double middle = (1000 + 1001) / 2.0;
    double top = (2010 + 2008) / 2.0;
    assertThat(figure(evaluation, "non-linearity"))
        .isCloseTo(100 * Math.abs(middle - top / 2) / top, within(1e-9));
    assertThat(figure(evaluation, "repeatability")).isCloseTo(100 * 2 / top, within(2e-3));
    assertThat(figure(evaluation, "reversibility"))
        .isCloseTo(100 * (5.0 / 1000 + 0.0 / 1001) / 2, within(1e-9));
    double fitted = evaluation.choice().fit().predict(0.2 * 9.81 * (1 - 1.5e-4));
    assertThat(figure(evaluation, "return to zero")).isCloseTo(400 / fitted, within(1e-9));
    assertThat(figure(evaluation, "creep")).isCloseTo(200 / fitted, within(1e-9));
    assertThat(figure(evaluation, "noise") / figure(evaluation, "resolution"))
        .isCloseTo(10, within(1e-9));
  }

  @Test
  void aCellThatReadsDownwardsGivesTheSameCurve() {
    CalibrationRun rising =
        new CalibrationRun(at(7, 0), List.of(up(100, 1007, 1), up(200, 2010, 2)), at(7, 3));
    CalibrationRun falling =
        new CalibrationRun(at(-7, 0), List.of(up(100, -1007, 1), up(200, -2010, 2)), at(-7, 3));
    RigSetting downwards = new RigSetting("rig", 128, new SampleRate(80), -1);
    DegreeRule line = new DegreeRule.Fixed(1);
    double[] one =
        Evaluation.of(
                new CalibrationData(RISING, List.of(rising), Optional.empty()), BARE, line, MADE)
            .choice()
            .fit()
            .coefficients();
    double[] other =
        Evaluation.of(
                new CalibrationData(downwards, List.of(falling), Optional.empty()),
                BARE,
                line,
                MADE)
            .choice()
            .fit()
            .coefficients();
    assertThat(other).containsExactly(one);
  }

  @Test
  void everyTermOfTheListIsInTheBudget() {
    Evaluation evaluation =
        Evaluation.of(
            new SimulatedBench(7, MASSES).calibration(3), SimulatedBench.conditions(), AUTO, MADE);
    List<CombinedUncertainty> table = CombinedUncertainty.over(evaluation.calibration(), 10, 50);
    assertThat(table).hasSize(10);
    assertThat(table.get(4).parts().stream().map(Contribution::source).collect(Collectors.toSet()))
        .contains(
            BudgetTerm.Source.REFERENCE_MASSES,
            BudgetTerm.Source.GRAVITY,
            BudgetTerm.Source.AIR_BUOYANCY,
            BudgetTerm.Source.FIT,
            BudgetTerm.Source.REPEATABILITY,
            BudgetTerm.Source.RUN_TO_RUN,
            BudgetTerm.Source.REVERSIBILITY,
            BudgetTerm.Source.ZERO_DRIFT,
            BudgetTerm.Source.CREEP,
            BudgetTerm.Source.TEMPERATURE,
            BudgetTerm.Source.RESOLUTION,
            BudgetTerm.Source.NOISE,
            BudgetTerm.Source.TIME_SINCE_CALIBRATION,
            BudgetTerm.Source.PLACE,
            BudgetTerm.Source.PULL_DIRECTION,
            BudgetTerm.Source.TILT,
            BudgetTerm.Source.FRICTION,
            BudgetTerm.Source.PEAK_ESTIMATE);
    for (CombinedUncertainty row : table) {
      assertThat(row.coverageFactor()).isGreaterThan(1.95);
      assertThat(row.expandedNewtons())
          .isCloseTo(row.coverageFactor() * row.standardNewtons(), within(1e-15));
    }
    assertThat(evaluation.notes().stream().map(InEnglish::told))
        .startsWith("sensitivity counts as constant in time: give a drift per year to change it")
        .last()
        .asString()
        .startsWith("the force at the cell counts as that at the edge");
  }

  @Test
  void massErrorsAllOneWayShiftTheSlopeByTheirWeight() {
    Evaluation evaluation =
        Evaluation.of(
            new SimulatedBench(3, MASSES).calibration(3),
            SimulatedBench.conditions(),
            new DegreeRule.Fixed(1),
            MADE);
    double cross = 0;
    double square = 0;
    for (ReferenceMass mass : MASSES) {
      double m = mass.conventionalMass().grams();
      cross += m * mass.standardUncertainty().grams();
      square += m * m;
    }
    BudgetTerm masses =
        evaluation.calibration().terms().stream()
            .filter(t -> t.source() == BudgetTerm.Source.REFERENCE_MASSES)
            .findFirst()
            .orElseThrow();
    assertThat(masses.relative()).isCloseTo(cross / square, within(1e-4 * cross / square));
  }

  @Test
  void saysWhatOneBareRunCannotTell() {
    CalibrationRun run =
        new CalibrationRun(
            at(0, 0), List.of(up(100, 1000, 1), up(200, 2001, 2), up(400, 4000, 3)), at(0, 4));
    Evaluation evaluation =
        Evaluation.of(
            new CalibrationData(RISING, List.of(run), Optional.empty()), BARE, AUTO, MADE);
    assertThat(evaluation.notes()).hasSize(6);
    assertThat(InEnglish.told(evaluation.notes().get(0))).contains("one run only");
  }

  @Test
  void boundToItsRigAndDated() {
    Calibration made =
        Evaluation.of(
                new SimulatedBench(1, MASSES).calibration(3),
                SimulatedBench.conditions(),
                AUTO,
                MADE)
            .calibration();
    assertThat(made.boundTo()).contains(SimulatedBench.SETTING);
    assertThat(made.validityAt(MADE.plus(Duration.ofDays(181))))
        .isEqualTo(Calibration.Validity.EXPIRED);
    assertThat(made.range().to().newtons()).isCloseTo(0.5 * 9.809, within(0.002));
  }

  @Test
  void readingsAgainstTheLoadAreRefused() {
    CalibrationRun run =
        new CalibrationRun(at(0, 0), List.of(up(100, -1000, 1), up(200, -2001, 2)), at(0, 4));
    CalibrationData data = new CalibrationData(RISING, List.of(run), Optional.empty());
    assertThatThrownBy(() -> Evaluation.of(data, BARE, new DegreeRule.Fixed(1), MADE))
        .hasMessageContaining("other polarity");
  }

  @Test
  void twoEqualLoadsOnlyAreRefused() {
    CalibrationRun run =
        new CalibrationRun(at(0, 0), List.of(up(100, 1000, 1), up(100, 1001, 2)), at(0, 4));
    CalibrationData data = new CalibrationData(RISING, List.of(run), Optional.empty());
    assertThatThrownBy(() -> Evaluation.of(data, BARE, new DegreeRule.Fixed(2), MADE))
        .hasMessageContaining("1 distinct loads")
        .hasMessageContaining("add loads");
  }

  @Test
  void aCheckMassPassesOrFails() {
    SimulatedBench bench = new SimulatedBench(11, MASSES);
    Calibration made =
        Evaluation.of(bench.calibration(3), SimulatedBench.conditions(), AUTO, MADE).calibration();
    Load load = Load.of(MASSES.get(3));
    Load.Exerted exerted = load.exerted(SimulatedBench.GRAVITY, AirDensity.standard());
    double deflection = made.curve().deflectionCounts(exerted.force().newtons());
    MassCheck good =
        MassCheck.of(made, exerted, at(50, 0), at(50 + deflection, 1), OptionalDouble.empty());
    assertThat(good.passes()).isTrue();
    assertThat(good.relativeError()).isCloseTo(0, within(1e-9));
    MassCheck bad =
        MassCheck.of(
            made, exerted, at(50, 0), at(50 + 1.01 * deflection, 1), OptionalDouble.empty());
    assertThat(bad.passes()).isFalse();
    assertThat(bad.relativeError()).isCloseTo(0.01, within(1e-4));
    MassCheck lenient =
        MassCheck.of(
            made, exerted, at(50, 0), at(50 + 1.01 * deflection, 1), OptionalDouble.of(0.02));
    assertThat(lenient.passes()).isTrue();
    Load.Exerted heavy = grams(900).exerted(SimulatedBench.GRAVITY, AirDensity.standard());
    assertThatThrownBy(() -> MassCheck.of(made, heavy, at(0, 0), at(1, 1), OptionalDouble.empty()))
        .hasMessageContaining("outside the calibrated range");
  }
}
