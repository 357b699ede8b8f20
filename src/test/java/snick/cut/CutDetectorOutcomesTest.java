package snick.cut;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import snick.sample.Gap;
import snick.sample.Rail;

/** What became of a loading, and what a person should know about it. */
class CutDetectorOutcomesTest {
  private final List<Cut> cuts = new ArrayList<>();
  private final CutDetector detector = new CutDetector(DetectorSettings.defaults(), cuts::add);

  private static RigModel rig(double rate, RigModel.Filter filter) {
    return new RigModel(rate, filter, 0.15, 11);
  }

  private static Cut only(List<Cut> cuts) {
    assertThat(cuts).hasSize(1);
    return cuts.get(0);
  }

  private static Cut severed(DoubleUnaryOperator force, double rate) {
    Cut cut = only(Recorder.of(rig(rate, RigModel.Filter.SINC4), force, 8));
    assertThat(cut.outcome()).isEqualTo(Outcome.SEVERED);
    return cut;
  }

  private static void reads(Cut cut, double gf, double tolerance) {
    assertThat(Recorder.gf(cut)).isCloseTo(gf, within(tolerance));
    assertThat(Math.abs(Recorder.gf(cut) - gf)).isLessThan(4 * Recorder.uncertaintyGf(cut));
  }

  @ParameterizedTest
  @CsvSource({
    "80,BOX4,0.1",
    "80,SINC4,0.1",
    "80,BOX4,0.5",
    "80,SINC4,0.5",
    "320,BOX4,0.1",
    "320,SINC4,0.5"
  })
  void loadTakenAwayByHandIsReleased(double rate, RigModel.Filter filter, double seconds) {
    DoubleUnaryOperator force =
        t ->
            t < 2 || t > 3 + seconds
                ? 0
                : t < 3 ? 100 * (t - 2) : 50 * (1 + Math.cos(Math.PI * (t - 3) / seconds));
    assertThat(only(Recorder.of(rig(rate, filter), force, 6)).outcome())
        .isEqualTo(Outcome.RELEASED);
  }

  @ParameterizedTest
  @CsvSource({"80,SINC4,0.08", "80,BOX4,0.15", "80,SINC4,0.4", "320,BOX4,0.03", "320,SINC4,0.02"})
  void filamentThatPartsInStepsSaysSo(double rate, RigModel.Filter filter, double seconds) {
    DoubleUnaryOperator force =
        t -> t < 2 || t > 3 + seconds ? 0 : t < 3 ? 100 * (t - 2) : 50 + 10 * (t - 3);
    Cut cut = only(Recorder.of(rig(rate, filter), force, 6));
    assertThat(cut.outcome()).isEqualTo(Outcome.PARTED_IN_STEPS);
    assertThat(Recorder.gf(cut)).isCloseTo(100, within(2.0));
    assertThat(cut.breakNanos()).isPresent();
  }

  @ParameterizedTest
  @CsvSource({"80,60", "80,200", "320,60", "320,200", "1000,120"})
  void ringingOfTheFixtureIsNoLoading(double rate, double hertz) {
    Press press =
        Press.shaped(2, 100, 100, t -> 100 * t, Press.steady(), Press.ringing(0.2, hertz, 0.05));
    assertThat(Recorder.gf(severed(press, rate))).isCloseTo(100, within(0.3));
  }

  @Test
  void remnantOfTheFilamentMovesTheZero() {
    Cut cut = severed(Press.shaped(2, 60, 100, t -> 60 * t, Press.steady(), t -> 0.01), 80);
    reads(cut, 100, 0.5);
    assertThat(cut.flags()).contains(Flag.ZERO_MOVED);
  }

  @Test
  void creepHoldAndChangeOfSpeed() {
    reads(severed(shape(t -> t < 3 ? t : 3 + 60 * (t - 3)), 80), 100, 0.9);
    reads(severed(shape(t -> t < 0.2 ? 100 * t : t < 2 ? 20 : 20 + 60 * (t - 2)), 80), 100, 0.5);
    reads(severed(shape(t -> t < 1 ? 40 * t : 40 + 100 * (t - 1)), 80), 100, 1.5);
    reads(severed(shape(t -> 150 * t * t), 80), 100, 1);
  }

  private static Press shape(DoubleUnaryOperator course) {
    return Press.shaped(2, 60, 100, course, Press.steady(), t -> 0);
  }

  @Test
  void burrIsSeenAsADip() {
    Cut cut =
        severed(
            shape(
                t -> 60 * t - (t > 0.8 && t < 0.95 ? 6 * Math.sin(Math.PI * (t - 0.8) / 0.15) : 0)),
            80);
    reads(cut, 100, 0.4);
    assertThat(cut.shape().dips()).isEqualTo(1);
    assertThat(cut.flags()).contains(Flag.DIPS_BEFORE_PEAK);
  }

  /** One no taller than the fall that it lies in moves the instant by its share of the area. */
  @ParameterizedTest
  @ValueSource(ints = {-40, -10, -3, -2, -1, 0, 1, 2, 3, 4, 8})
  void spikeAnywhereSpoilsNothing(int offset) {
    for (RigModel.Filter filter :
        new RigModel.Filter[] {RigModel.Filter.BOX4, RigModel.Filter.SINC4}) {
      for (double spike : new double[] {60, -60, 5000}) {
        RigModel rig = rig(80, filter);
        Press press = Press.ramp(2, 60, 100, Press.steady());
        double[] readings = rig.readings(press, 6);
        readings[(int) (80 * press.breakTime) + offset] += spike;
        Cut cut = only(Recorder.of(rig, readings));
        assertThat(cut.outcome()).isEqualTo(Outcome.SEVERED);
        boolean hidden = Math.abs(spike) < 100 && offset >= -1 && offset <= 4;
        assertThat(Recorder.gf(cut)).isCloseTo(100, within(hidden ? 0.7 : 0.5));
        double observed = cut.peak().orElseThrow().observedMaxCounts() / RigModel.COUNTS_PER_GF;
        assertThat(observed).isBetween(94.0, 100.6);
      }
    }
  }

  @Test
  void levelThatMovedBeforeIsTheZero() {
    DoubleUnaryOperator force = t -> t < 2 ? 0 : 3 + (t < 5 || t > 6.5 ? 0 : 60 * (t - 5));
    Cut cut = only(Recorder.of(rig(80, RigModel.Filter.SINC4), force, 8));
    assertThat(Recorder.gf(cut)).isCloseTo(90, within(0.4));
    assertThat(cut.flags()).contains(Flag.ZERO_UNSURE);
  }

  @Test
  void streamThatEndsInsideIsTruncated() {
    RigModel rig = rig(80, RigModel.Filter.BOX4);
    Cut cut = only(Recorder.of(rig, Press.ramp(2, 20, 100, Press.steady()), 4));
    assertThat(cut.outcome()).isEqualTo(Outcome.TRUNCATED);
    assertThat(cut.breakNanos()).isEmpty();
  }

  @Test
  void resetInsideIsTruncated() {
    RigModel rig = rig(80, RigModel.Filter.BOX4);
    rig.feed(rig.readings(Press.ramp(2, 20, 100, Press.steady()), 4), detector);
    detector.gap(new Gap(Gap.Cause.DEVICE_RESET, rig.nanos(319), rig.nanos(319), 0));
    Cut cut = only(cuts);
    assertThat(cut.outcome()).isEqualTo(Outcome.TRUNCATED);
    assertThat(cut.flags()).contains(Flag.GAP_INSIDE);
    assertThat(detector.inEvent()).isFalse();
  }

  @Test
  void lostSamplesOnTheRampAreFlagged() {
    RigModel rig = rig(80, RigModel.Filter.SINC4);
    Press press = Press.ramp(2, 60, 100, Press.steady());
    double[] readings = rig.readings(press, 6);
    int lostFrom = (int) (80 * press.breakTime) - 30;
    for (int i = 0; i < readings.length; i++) {
      if (i == lostFrom + 5) {
        detector.gap(
            new Gap(Gap.Cause.LOST_SAMPLES, rig.nanos(lostFrom - 1), rig.nanos(lostFrom + 5), 5));
      }
      if (i < lostFrom || i >= lostFrom + 5) {
        detector.sample(rig.nanos(i), rig.counts(readings[i]));
      }
    }
    detector.end();
    Cut cut = only(cuts);
    assertThat(cut.outcome()).isEqualTo(Outcome.SEVERED);
    assertThat(cut.flags()).contains(Flag.GAP_INSIDE);
    assertThat(cut.trace().gaps()).hasSize(1);
    reads(cut, 100, 0.4);
  }

  @Test
  void overrangeInsideIsAnOutcome() {
    RigModel rig = rig(80, RigModel.Filter.SINC4);
    double[] readings = rig.readings(Press.ramp(2, 60, 100, Press.steady()), 6);
    for (int i = 0; i < readings.length; i++) {
      if (readings[i] > 70) {
        detector.overrange(rig.nanos(i), Rail.HIGH);
      } else {
        detector.sample(rig.nanos(i), rig.counts(readings[i]));
      }
    }
    detector.end();
    Cut cut = only(cuts);
    assertThat(cut.outcome()).isEqualTo(Outcome.OVERRANGE);
    assertThat(cut.breakNanos()).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(longs = {20_000, 300_000, 2_000_000})
  void jitterOfTheTimeStampsDoesNotReachTheForce(long jitterNanos) {
    RigModel rig = rig(80, RigModel.Filter.SINC4);
    Random random = new Random(5);
    double[] readings = rig.readings(Press.ramp(2, 150, 100, Press.steady()), 4);
    for (int i = 0; i < readings.length; i++) {
      long late = (long) (jitterNanos * random.nextDouble());
      detector.sample(rig.nanos(i) + late, rig.counts(readings[i]));
    }
    detector.end();
    reads(only(cuts), 100, 0.3);
    assertThat(detector.rateHertz()).isCloseTo(80, within(1.0));
  }

  @Test
  void massHungAndTakenAwayIsNoCut() {
    DoubleUnaryOperator force = t -> t < 2 || t > 70 ? 0 : Math.min(30, 30 * (t - 2));
    assertThat(Recorder.of(rig(80, RigModel.Filter.SINC4), force, 80))
        .extracting(Cut::outcome)
        .containsExactly(Outcome.DISTURBED);
  }

  @Test
  void smallerEventsAreIgnoredOnRequest() {
    RigModel rig = rig(80, RigModel.Filter.SINC4);
    DetectorSettings settings =
        DetectorSettings.defaults().withMinimumForceCounts(50 * RigModel.COUNTS_PER_GF);
    CutDetector strict = new CutDetector(settings, cuts::add);
    rig.feed(rig.readings(Press.ramp(2, 60, 40, Press.steady()), 4), strict);
    strict.end();
    assertThat(cuts).isEmpty();
  }
}
