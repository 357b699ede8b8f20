package snick.virtualrig.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.tuple;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import snick.quantity.Force;
import snick.quantity.SampleRate;
import snick.virtualrig.bench.TrueCut;
import snick.virtualrig.script.Action;
import snick.virtualrig.script.Script;
import snick.virtualrig.settings.Altered;
import snick.virtualrig.settings.ConverterSettings;
import snick.virtualrig.settings.Disturbance;
import snick.virtualrig.settings.FilterShape;
import snick.virtualrig.settings.FixtureSettings;
import snick.virtualrig.settings.HandSettings;
import snick.virtualrig.settings.RigSettings;

class SignalModelTest {
  private static final double PER_GRAM_FORCE = 100_000.0 / 128;
  private static final RigSettings CLEAN =
      RigSettings.USUAL
          .with(HandSettings.MOTOR)
          .with(FixtureSettings.IDEAL)
          .with(Disturbance.NONE)
          .with(Altered.withScale(ConverterSettings.USUAL, 0, PER_GRAM_FORCE));

  private final List<TrueCut> truths = new ArrayList<>();

  private SignalModel model(RigSettings settings, long seed, Script script) {
    SignalModel model = new SignalModel(settings, seed, truths::add);
    script.actions().forEach(model::perform);
    return model;
  }

  private static int[] counts(SignalModel model, int number) {
    int[] counts = new int[number];
    for (int i = 0; i < number; i++) {
      counts[i] = model.convert();
    }
    return counts;
  }

  private static final Script TWO_CUTS =
      Script.of(
          new Action.Rest(0.5),
          Action.Cut.ofGramForce(131, 90).withDips(3),
          new Action.Rest(0.5),
          Action.Cut.ofGramForce(92, 140).partingInTwoSteps(),
          new Action.Rest(0.5));

  @Test
  void sameSeedAndScriptGiveTheSameCounts() {
    int[] once = counts(model(RigSettings.USUAL, 7, TWO_CUTS), 500);
    assertThat(counts(model(RigSettings.USUAL, 7, TWO_CUTS), 500)).isEqualTo(once);
    assertThat(counts(model(RigSettings.USUAL, 8, TWO_CUTS), 500)).isNotEqualTo(once);
  }

  @Test
  void countsOfAFixedSeedStayAsTheyWere() {
    int[] counts = counts(model(RigSettings.USUAL, 20_26, TWO_CUTS), 400);
    assertThat(Arrays.hashCode(counts)).isEqualTo(-2032589066);
  }

  @Test
  void reportsTheTruthOfEachCut() {
    counts(model(RigSettings.USUAL, 7, TWO_CUTS), 500);
    assertThat(truths)
        .extracting(TrueCut::number, TrueCut::kind)
        .containsExactly(tuple(1, TrueCut.Kind.SEVERED), tuple(2, TrueCut.Kind.PARTED_IN_STEPS));
    assertThat(truths.get(0).breakForce().gramForce()).isCloseTo(131, within(1e-9));
  }

  /** Rest 1 s, gap of 0.5 mm at 90 gf/s through 12 gf/mm, then 131 gf at 90 gf/s. */
  @Test
  void breaksAtTheInstantThatRateAndStrengthGive() {
    counts(model(CLEAN, 1, Script.of(new Action.Rest(1), Action.Cut.ofGramForce(131, 90))), 400);
    double expectedSeconds = 1 + 0.5 * 12 / 90 + 131.0 / 90;
    assertThat(truths.get(0).breakNanos()).isCloseTo((long) (expectedSeconds * 1e9), within(5000L));
  }

  @Test
  void settledMassReadsItsWeight() {
    int[] counts = counts(model(CLEAN, 1, Script.of(Action.Hang.ofGrams(200))), 400);
    double weightGramForce = 200 * (1 - 1.2 / 8000);
    assertThat(counts[399]).isEqualTo((int) Math.rint(weightGramForce * PER_GRAM_FORCE));
  }

  @Test
  void threadCutIsAStepOfTheWeightWithTheFiltersResponse() {
    Script script =
        Script.of(Action.Hang.ofGrams(500), new Action.Rest(0.6), new Action.CutThread());
    int[] counts = counts(model(CLEAN, 1, script), 300);
    double weight = 500 * (1 - 1.2 / 8000) * PER_GRAM_FORCE;
    assertThat(truths.get(0).kind()).isEqualTo(TrueCut.Kind.THREAD_CUT);
    assertThat(truths.get(0).breakForce().gramForce()).isCloseTo(499.925, within(1e-9));
    int cut = (int) Math.round(truths.get(0).breakNanos() / 12_500_000.0);
    double[] response = {1.0 / 24, 0.5, 23.0 / 24, 1};
    for (int i = 0; i < response.length; i++) {
      assertThat(counts[cut + i] / weight).isCloseTo(1 - response[i], within(2e-3));
    }
  }

  @Test
  void releaseComesBackToZeroWithoutABreak() {
    Script script = Script.of(new Action.Release(Force.ofGramForce(60), 120), new Action.Rest(1));
    int[] counts = counts(model(CLEAN, 1, script), 200);
    assertThat(truths).singleElement().extracting(TrueCut::kind).isEqualTo(TrueCut.Kind.RELEASED);
    assertThat(truths.get(0).breakForce().gramForce()).isCloseTo(60, within(0.2));
    assertThat(counts[199]).isZero();
  }

  @Test
  void tremorDoesNotChangeTheTruth() {
    RigSettings shaky = RigSettings.USUAL.with(HandSettings.CALM.withTremorGramForce(2));
    counts(model(shaky, 5, Script.of(Action.Cut.ofGramForce(110, 40))), 400);
    assertThat(truths.get(0).breakForce().gramForce()).isCloseTo(110, within(1e-9));
  }

  @Test
  void noiseHasTheRmsAskedFor() {
    RigSettings noisy = CLEAN.with(Altered.withNoiseGramForce(Disturbance.NONE, 0.15));
    double sum = 0;
    for (int count : counts(model(noisy, 3, Script.of()), 20_000)) {
      sum += Math.pow(count / PER_GRAM_FORCE, 2);
    }
    assertThat(Math.sqrt(sum / 20_000)).isCloseTo(0.15, within(0.003));
  }

  @Test
  void humReachesTheReadingAsTheFilterLetsItThrough() {
    RigSettings humming = CLEAN.with(new Disturbance(0, 10, 50, 0, 0, 0, 0, 0));
    int largest = 0;
    for (int count : counts(model(humming, 3, Script.of()), 800)) {
      largest = Math.max(largest, count);
    }
    double expected = 10 * Math.abs(FilterShape.SINC4.gainAt(50 / 80.0));
    assertThat(largest / PER_GRAM_FORCE).isCloseTo(expected, within(expected * 0.01));
  }

  /** As often as readings come there is one in each; 60 a minute are a Poisson number of them. */
  @Test
  void spikesComeAsOftenAndAsHighAsAskedFor() {
    int high = (int) Math.rint(30 * PER_GRAM_FORCE);
    RigSettings always = CLEAN.with(Altered.withSpikes(Disturbance.NONE, 1e6, 30));
    assertThat(counts(model(always, 3, Script.of()), 100)).containsOnly(high);
    RigSettings sometimes = CLEAN.with(Altered.withSpikes(Disturbance.NONE, 60, 30));
    int[] counts = counts(model(sometimes, 3, Script.of()), 80 * 1000);
    assertThat(counts).containsOnly(0, high);
    long spikes = Arrays.stream(counts).filter(count -> count == high).count();
    assertThat(spikes).as("1000, standard deviation 32").isBetween(870L, 1130L);
  }

  @Test
  void zeroDriftsWithTheWarmth() {
    RigSettings warming = CLEAN.with(new Disturbance(0, 0, 50, 0, 0.5, 4, 0, 0));
    int[] counts = counts(model(warming, 3, Script.of()), 80 * 3600);
    assertThat(counts[counts.length - 1] / PER_GRAM_FORCE).isCloseTo(2, within(0.2));
  }

  @Test
  void saturatesInsteadOfWrapping() {
    RigSettings sensitive = CLEAN.with(Altered.withScale(ConverterSettings.USUAL, 0, -100_000));
    assertThat(counts(model(sensitive, 3, Script.of(Action.Hang.ofGrams(500))), 400)[399])
        .isEqualTo(-0x800000);
    assertThat(Converter.atRail(-0x800000)).isTrue();
    assertThat(Converter.atRail(0x7FFFFF)).isTrue();
    assertThat(Converter.atRail(0x7FFFFE)).isFalse();
  }

  @Test
  void gainScalesTheReading() {
    SignalModel model = model(CLEAN, 1, Script.of(Action.Hang.ofGrams(200)));
    int atFullGain = counts(model, 400)[399];
    model.setGain(64);
    assertThat(model.convert()).isCloseTo(atFullGain / 2, within(1));
  }

  @Test
  void conversionsComeAtTheTrueRate() {
    RigSettings slow = CLEAN.with(Altered.withRateErrorPpm(ConverterSettings.USUAL, -50_000));
    SignalModel model = model(slow, 1, Script.of());
    assertThat(model.nextNanos()).isEqualTo(Math.round(12_500_000 / 0.95));
    counts(model, 80);
    model.setRate(new SampleRate(10));
    assertThat(model.nextNanos()).isEqualTo(Math.round((80 * 12_500_000.0 + 100_000_000.0) / 0.95));
  }

  @Property(tries = 40)
  void theLargestReadingNeverExceedsTheTruthOfACleanCut(
      @ForAll @DoubleRange(min = 40, max = 220) double strength,
      @ForAll @DoubleRange(min = 20, max = 400) double rate) {
    List<TrueCut> seen = new ArrayList<>();
    SignalModel model = new SignalModel(CLEAN, 1, seen::add);
    model.perform(Action.Cut.ofGramForce(strength, rate));
    int largest = 0;
    while (seen.isEmpty() || model.finishedActions() == 0) {
      largest = Math.max(largest, model.convert());
    }
    assertThat(largest / PER_GRAM_FORCE)
        .isLessThanOrEqualTo(strength + 1e-2)
        .isGreaterThan(strength - rate * 4 / 80);
  }

  @Test
  void refusesActionsOutOfRange() {
    assertThatThrownBy(() -> Action.Cut.ofGramForce(Double.NaN, 10))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> Action.Cut.ofGramForce(10, 0)).hasMessageContaining("loading rate");
    assertThatThrownBy(() -> new Action.Rest(-1)).hasMessageContaining("rest, s,");
  }
}
