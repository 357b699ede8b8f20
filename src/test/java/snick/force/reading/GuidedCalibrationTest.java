package snick.force.reading;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static snick.InEnglish.told;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import snick.force.SimulatedBench;
import snick.force.budget.Evaluation;
import snick.force.fit.DegreeRule;
import snick.force.mass.Load;
import snick.force.mass.MassClass;
import snick.quantity.SampleRate;
import snick.sample.Gap;
import snick.sample.Rail;

class GuidedCalibrationTest {
  private static final double COUNTS_PER_GRAM = 437;
  private static final double NOISE = 40;
  private static final RigSetting SETTING = new RigSetting("rig", 128, new SampleRate(80), 1);
  private static final List<Load> LOADS =
      SimulatedBench.classWeights(MassClass.M1, 20, 50, 100, 200).stream().map(Load::of).toList();
  private static final CalibrationPlan PLAN = new CalibrationPlan(LOADS, 2, true, 20);

  /** Feeds 80 samples a second of a reading that approaches its value with a time constant. */
  private static final class Person {
    private final GuidedCalibration guided;
    private final Random random = new Random(5);
    private final int polarity;
    private long nanos;

    Person(GuidedCalibration guided, int polarity) {
      this.guided = guided;
      this.polarity = polarity;
    }

    void settle(double grams, double seconds) {
      for (int i = 0; i < seconds * 80; i++) {
        double swing = 0.05 * grams * Math.exp(-i / 80.0 / 0.4);
        double counts =
            -5000 + polarity * COUNTS_PER_GRAM * (grams + swing) + NOISE * random.nextGaussian();
        guided.sample(nanos, (int) Math.round(counts));
        nanos += 12_500_000;
      }
    }

    void put(double grams) {
      guided.confirm();
      settle(grams, 15);
    }

    void follow() {
      while (guided.step().isPresent()) {
        CalibrationPlan.Step step = guided.step().get();
        if (step instanceof CalibrationPlan.Step.PutOn on) {
          put(on.load().nominalGrams());
        } else if (step instanceof CalibrationPlan.Step.Rest rest) {
          guided.confirm();
          settle(rest.load().nominalGrams(), rest.seconds() + 15);
        } else {
          put(0);
        }
        assertThat(guided.refused()).isEmpty();
      }
    }
  }

  private static Person begin(int polarity) {
    RigSetting setting = new RigSetting("rig", 128, new SampleRate(80), polarity);
    return new Person(
        new GuidedCalibration(GuidedState.begin(PLAN, setting), Steadiness.USUAL), polarity);
  }

  private static GuidedCalibration.Refused.Cause cause(Person person) {
    return person.guided.refused().orElseThrow().cause();
  }

  @Test
  void leadsThroughTheWholePlanToACalibration() {
    for (int polarity : new int[] {1, -1}) {
      Person person = begin(polarity);
      person.follow();
      assertThat(person.guided.phase()).isEqualTo(GuidedCalibration.Phase.FINISHED);
      CalibrationData data = person.guided.state().data().orElseThrow();
      assertThat(data.runs()).hasSize(2);
      assertThat(data.runs().get(0).loaded()).hasSize(7);
      assertThat(data.hold().orElseThrow().spanSeconds()).isCloseTo(20, within(2.5));
      Evaluation evaluation =
          Evaluation.of(
              data,
              SimulatedBench.conditions(),
              new DegreeRule.Automatic(),
              Instant.parse("2026-01-02T03:04:05Z"));
      double slope = evaluation.choice().fit().coefficients()[1];
      double newtonsPerGram = SimulatedBench.GRAVITY.metresPerSecondSquared() / 1000 * (1 - 1.5e-4);
      assertThat(slope * newtonsPerGram).isCloseTo(COUNTS_PER_GRAM, within(0.05));
    }
  }

  @Test
  void showsHowFarTheReadingHasSettled() {
    Person person = begin(1);
    person.put(0);
    person.guided.confirm();
    person.settle(20, 0.8);
    assertThat(person.guided.phase()).isEqualTo(GuidedCalibration.Phase.SETTLING);
    Steadiness.Settling settling = person.guided.settling();
    assertThat(settling.steady()).isFalse();
    assertThat(settling.filledSeconds()).isBetween(0.6, 0.9);
    assertThat(Math.abs(settling.driftCounts())).isGreaterThan(settling.driftLimitCounts());
    assertThat(person.guided.state().current()).hasSize(1);
  }

  @Test
  void waitsForThePersonsWord() {
    Person person = begin(1);
    person.settle(0, 30);
    assertThat(person.guided.phase()).isEqualTo(GuidedCalibration.Phase.WAITING_FOR_PERSON);
    assertThat(person.guided.state().current()).isEmpty();
  }

  @Test
  void refusesTheSameReadingTwice() {
    Person person = begin(1);
    person.put(0);
    person.put(0);
    assertThat(cause(person)).isEqualTo(GuidedCalibration.Refused.Cause.SAME_READING_TWICE);
    assertThat(person.guided.state().current()).hasSize(1);
    person.put(20);
    assertThat(person.guided.refused()).isEmpty();
    assertThat(person.guided.state().current()).hasSize(2);
  }

  @Test
  void refusesTheWrongDirection() {
    Person person = begin(1);
    person.put(0);
    person.put(-20);
    assertThat(cause(person)).isEqualTo(GuidedCalibration.Refused.Cause.WRONG_DIRECTION);
  }

  @Test
  void refusesAnotherMassThanAnnounced() {
    Person person = begin(1);
    person.put(0);
    person.put(20);
    person.put(100);
    assertThat(cause(person)).isEqualTo(GuidedCalibration.Refused.Cause.NOT_AS_ANNOUNCED);
    assertThat(told(person.guided.refused().orElseThrow().message()))
        .containsPattern("like (99|100)")
        .contains("50.00 g");
  }

  @Test
  void refusesOverrange() {
    Person person = begin(1);
    person.put(0);
    person.guided.confirm();
    person.guided.overrange(person.nanos, Rail.HIGH);
    assertThat(cause(person)).isEqualTo(GuidedCalibration.Refused.Cause.OVERRANGE);
    assertThat(person.guided.phase()).isEqualTo(GuidedCalibration.Phase.WAITING_FOR_PERSON);
  }

  @Test
  void refusesAReadingThatDoesNotBecomeSteady() {
    Person person = begin(1);
    person.put(0);
    person.guided.confirm();
    for (int i = 0; i < 70; i++) {
      person.settle(20 + i, 1);
    }
    assertThat(cause(person)).isEqualTo(GuidedCalibration.Refused.Cause.UNSTEADY);
    assertThat(told(person.guided.refused().orElseThrow().message()))
        .contains("60 s")
        .contains("limit");
  }

  @Test
  void refusesALoadUnderOnePercentOfTheRange() {
    List<Load> loads =
        SimulatedBench.classWeights(MassClass.M1, 1, 100, 200).stream().map(Load::of).toList();
    assertThatThrownBy(() -> new CalibrationPlan(loads, 3, true, 300))
        .hasMessageContaining("1 g M1 is under 1 % of the range")
        .hasMessageContaining("larger one");
  }

  @Test
  void refusesAReadingUnderOnePercentOfTheRange() {
    HeldReading zero = new HeldReading(0, 1, 100, 0, 0);
    HeldReading top = new HeldReading(100_000, 1, 100, 1, 1);
    CalibrationRun run =
        new CalibrationRun(
            zero,
            List.of(new CalibrationRun.Loaded(LOADS.get(3), Direction.UP, top)),
            new HeldReading(0, 1, 100, 2, 2));
    GuidedState state = new GuidedState(PLAN, SETTING, List.of(run), List.of(zero), List.of());
    Optional<GuidedCalibration.Refused> refused =
        new ReadingJudge(state)
            .objection(
                new CalibrationPlan.Step.PutOn(LOADS.get(0), Direction.UP),
                new HeldReading(900, 1, 100, 3, 3));
    assertThat(refused.orElseThrow().cause())
        .isEqualTo(GuidedCalibration.Refused.Cause.UNDER_ONE_PERCENT);
  }

  @Test
  void refusesAZeroWithTheLoadStillOn() {
    CalibrationPlan upOnly = new CalibrationPlan(LOADS, 1, false, 0);
    Person person =
        new Person(new GuidedCalibration(GuidedState.begin(upOnly, SETTING), Steadiness.USUAL), 1);
    for (double grams : new double[] {0, 20, 50, 100, 200, 200}) {
      person.put(grams);
    }
    assertThat(cause(person)).isEqualTo(GuidedCalibration.Refused.Cause.STILL_LOADED);
    person.put(0);
    assertThat(person.guided.phase()).isEqualTo(GuidedCalibration.Phase.FINISHED);
  }

  @Test
  void aBrokenStreamKeepsCompleteRuns() {
    Person person = begin(1);
    for (double grams : new double[] {0, 20, 50, 100, 200, 100, 50, 20, 0, 20}) {
      person.put(grams);
    }
    assertThat(person.guided.state().done()).hasSize(1);
    assertThat(person.guided.state().current()).hasSize(2);
    person.guided.gap(new Gap(Gap.Cause.DEVICE_RESET, person.nanos, person.nanos, 0));
    assertThat(cause(person)).isEqualTo(GuidedCalibration.Refused.Cause.LINK_BROKEN);
    assertThat(person.guided.state().done()).hasSize(1);
    assertThat(person.guided.state().current()).isEmpty();
  }

  @Test
  void goesOnFromItsStateInAnotherStream() {
    Person person = begin(1);
    for (double grams : new double[] {0, 20, 50, 100, 200, 100, 50, 20, 0, 20}) {
      person.put(grams);
    }
    person.guided.end();
    Person later =
        new Person(new GuidedCalibration(person.guided.state().resumed(), Steadiness.USUAL), 1);
    later.follow();
    assertThat(later.guided.state().data().orElseThrow().runs()).hasSize(2);
  }

  @Test
  void plansThatCannotWorkAreRefused() {
    assertThatThrownBy(() -> new CalibrationPlan(LOADS.subList(0, 1), 3, true, 0))
        .hasMessageContaining("2 to 20");
    assertThatThrownBy(() -> new CalibrationPlan(List.of(LOADS.get(1), LOADS.get(0)), 3, true, 0))
        .hasMessageContaining("from the smallest");
    assertThatThrownBy(() -> new CalibrationPlan(LOADS, 0, true, 0)).hasMessageContaining("runs");
    assertThatThrownBy(() -> new Steadiness(2, 0, 2, 60)).hasMessageContaining("drift limit");
  }
}
