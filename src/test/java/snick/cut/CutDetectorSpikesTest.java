package snick.cut;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Two spikes in a row neither make a cut, nor hide one, nor move its force. */
class CutDetectorSpikesTest {
  private static final double[][] PAIRS_GF = {
    {60, 60}, {-60, -60}, {5000, 5000}, {-5000, -5000}, {300, 80}, {60, -60}, {-80, 300}, {20, 20}
  };

  @ParameterizedTest
  @ValueSource(ints = {-40, -12, -8, -5, -4, -3, 5, 6, 9})
  void twoInARowSpoilNothing(int offset) {
    for (RigModel.Filter filter :
        new RigModel.Filter[] {RigModel.Filter.BOX4, RigModel.Filter.SINC4}) {
      for (double[] pair : PAIRS_GF) {
        RigModel rig = new RigModel(80, filter, 0.15, 77 + offset);
        Press press = Press.ramp(2, 60, 100, Press.steady());
        double[] readings = rig.readings(press, press.breakTime + 2);
        int at = (int) (80 * press.breakTime) + offset;
        readings[at] += pair[0];
        readings[at + 1] += pair[1];
        List<Cut> cuts = Recorder.of(rig, readings);
        assertThat(cuts)
            .as("%s gf and %s gf", pair[0], pair[1])
            .extracting(Cut::outcome)
            .containsExactly(Outcome.SEVERED);
        assertThat(Recorder.gf(cuts.get(0))).isCloseTo(100, within(1.0));
      }
    }
  }

  @ParameterizedTest
  @EnumSource(names = {"BOX4", "SINC4"})
  void twoInARowAtRestAreNoCut(RigModel.Filter filter) {
    for (double[] pair : PAIRS_GF) {
      RigModel rig = new RigModel(80, filter, 0.15, 3);
      double[] readings = rig.readings(t -> 0, 8);
      readings[400] += pair[0];
      readings[401] += pair[1];
      assertThat(Recorder.of(rig, readings)).as("%s gf and %s gf", pair[0], pair[1]).isEmpty();
    }
  }

  /** The first few readings may look calmer than the noise is. */
  @ParameterizedTest
  @ValueSource(doubles = {10, 80, 320})
  void noEventFromTheNoiseOfTheFirstReadings(double rate) {
    for (int seed = 0; seed < 400; seed++) {
      RigModel rig = new RigModel(rate, RigModel.Filter.SINC4, 0.15, seed);
      assertThat(Recorder.of(rig, t -> 0, 80 / rate)).as("seed %s", seed).isEmpty();
    }
  }

  @ParameterizedTest
  @CsvSource({"80,BOX4", "80,SINC4", "320,BOX4", "320,SINC4"})
  void briefDipsAreSeenThoughTheLoadingRisesFast(double rate, RigModel.Filter filter) {
    RigModel rig = new RigModel(rate, filter, 0.15, 5);
    Press press =
        Press.shaped(
            2,
            110,
            200,
            t -> 110 * t * (1 - dip(t, 0.95) - dip(t, 1.25) - dip(t, 1.5)),
            Press.steady(),
            t -> 0);
    List<Cut> cuts = Recorder.of(rig, press, press.breakTime + 1);
    assertThat(cuts).extracting(Cut::outcome).containsExactly(Outcome.SEVERED);
    assertThat(cuts.get(0).shape().dips()).isEqualTo(3);
    assertThat(cuts.get(0).flags()).contains(Flag.DIPS_BEFORE_PEAK);
  }

  /** A raised cosine of 6 % that lasts 40 ms. */
  private static double dip(double t, double at) {
    double phase = (t - at) / 0.04;
    return phase > 0 && phase < 1 ? 0.03 * (1 - Math.cos(2 * Math.PI * phase)) : 0;
  }

  @ParameterizedTest
  @CsvSource({"20,100", "60,20", "150,30"})
  void aChangeOfSpeedIsNoDip(double before, double after) {
    RigModel rig = new RigModel(80, RigModel.Filter.SINC4, 0.15, 5);
    Press press =
        Press.shaped(
            2,
            60,
            100,
            t -> t < 0.5 ? before * t : before * 0.5 + after * (t - 0.5),
            Press.steady(),
            t -> 0);
    Cut cut = Recorder.of(rig, press, press.breakTime + 1).get(0);
    assertThat(cut.shape().dips()).isZero();
    double gfPerSecond = cut.shape().loadingRateCountsPerSecond() / RigModel.COUNTS_PER_GF;
    assertThat(gfPerSecond).isCloseTo(after, within(0.02 * after));
  }
}
