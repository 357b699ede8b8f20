package snick.cut;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.assertj.core.api.Assertions.withinPercentage;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Every cut is found, none is invented. */
class CutDetectorFindsTest {
  @ParameterizedTest
  @CsvSource({"80,BOX4", "80,SINC4", "320,BOX4", "320,SINC4", "1000,SINC4", "10,SINC4", "10,BOX4"})
  void everySeveredCutFromEightToNineHundredGramForce(double rate, RigModel.Filter filter) {
    for (double force : new double[] {8, 20, 300, 900}) {
      for (double loading : new double[] {20, 60, 150, 400}) {
        boolean seen = force / loading * rate > 1.5;
        if (seen && force / loading < 10) {
          RigModel rig = new RigModel(rate, filter, 0.15, (long) (force + loading));
          double onset = Math.max(2, 30 / rate);
          Press press = Press.ramp(onset, loading, force, Press.steady());
          List<Cut> cuts = Recorder.of(rig, press, press.breakTime + Math.max(0.5, 18 / rate));
          assertThat(cuts)
              .as("%s gf at %s gf/s", force, loading)
              .extracting(Cut::outcome)
              .containsExactly(Outcome.SEVERED);
        }
      }
    }
  }

  @ParameterizedTest
  @CsvSource({"80,BOX4,0.4", "80,SINC4,0.15", "320,BOX4,0.15", "320,SINC4,0.4"})
  void cutsAfterAShortRestStayApart(double rate, RigModel.Filter filter, double rest) {
    RigModel rig = new RigModel(rate, filter, 0.15, 8);
    int n = 12;
    double cycle = 0.25 + rest;
    List<Cut> cuts =
        Recorder.of(
            rig,
            t -> {
              double since = (t - 2) % cycle;
              return t < 2 || t > 2 + n * cycle || since > 0.25 ? 0 : 400 * since;
            },
            2 + n * cycle + 1);
    assertThat(cuts).hasSize(n);
    for (Cut cut : cuts) {
      assertThat(cut.outcome()).isEqualTo(Outcome.SEVERED);
      assertThat(Recorder.gf(cut)).isCloseTo(100, within(2.5));
    }
  }

  @ParameterizedTest
  @CsvSource({"80,1.2,1.3", "80,0.6,2", "80,2,1", "320,1.2,1.3", "320,0.5,1", "320,2,1"})
  void aStreamThatBeginsInALoadingLosesNoneButTheFirst(double rate, double loading, double rest) {
    RigModel rig = new RigModel(rate, RigModel.Filter.BOX4, 0.15, 8);
    int n = 12;
    double cycle = loading + rest;
    for (double begun = 0.05 * loading; begun < loading; begun += 0.1 * loading) {
      double skipped = begun;
      double seconds = n * cycle - skipped;
      List<Cut> cuts =
          Recorder.of(
              rig,
              t -> {
                double since = (t + skipped) % cycle;
                return t > seconds - rest / 2 || since > loading ? 0 : 100 * since;
              },
              seconds + 1);
      assertThat(cuts).as("begun after %s s", begun).hasSize(n - 1);
      assertThat(cuts)
          .allSatisfy(cut -> assertThat(cut.outcome()).isEqualTo(Outcome.SEVERED))
          .allSatisfy(
              cut -> assertThat(Recorder.gf(cut)).isCloseTo(100 * loading, withinPercentage(2)));
    }
  }

  @ParameterizedTest
  @CsvSource({"80,0", "80,30", "80,20", "80,12", "80,0.5", "320,50", "320,60", "10,0.02", "10,3"})
  void nothingInAnHourOfDriftHumAndSpikes(double rate, double humHertz) {
    Random random = new Random(42);
    List<Cut> cuts = new ArrayList<>();
    CutDetector detector = new CutDetector(DetectorSettings.defaults(), cuts::add);
    int n = (int) (3600 * rate);
    int nextSpike = 0;
    for (int i = 0; i < n; i++) {
      double t = i / rate;
      double gf =
          0.15 * random.nextGaussian()
              + 5 * Math.sin(2 * Math.PI * t / 600)
              + 20 * t / 3600
              + (humHertz == 0 ? 0 : 4 * Math.sin(2 * Math.PI * humHertz * t));
      if (i == nextSpike) {
        gf += 200 * random.nextGaussian();
        nextSpike += 4 + random.nextInt((int) (20 * rate));
      }
      detector.sample(Math.round(t * 1e9), (int) Math.rint(gf * RigModel.COUNTS_PER_GF));
    }
    detector.end();
    assertThat(cuts)
        .extracting(Cut::outcome)
        .doesNotContain(Outcome.SEVERED, Outcome.PARTED_IN_STEPS);
    boolean slowWave = humHertz > 0 && humHertz < 1;
    assertThat(slowWave || cuts.isEmpty()).isTrue();
  }

  @Test
  void noiseInTheFirstSecondIsNoCut() {
    Random random = new Random(20_260);
    List<Cut> cuts = new ArrayList<>();
    for (int start = 0; start < 2_000; start++) {
      CutDetector detector = new CutDetector(DetectorSettings.defaults(), cuts::add);
      for (int i = 0; i < 100; i++) {
        detector.sample(i * 12_500_000L, (int) Math.rint(66 * random.nextGaussian()));
      }
      detector.end();
    }
    assertThat(cuts).extracting(Cut::outcome).doesNotContain(Outcome.SEVERED);
  }

  @ParameterizedTest
  @CsvSource({"437.25", "-437.25", "1", "-10", "20000"})
  void eitherPolarityAndAnyScale(double countsPerGf) {
    RigModel rig =
        new RigModel(80, RigModel.Filter.SINC4, countsPerGf * countsPerGf > 200 ? 0.15 : 0, 3);
    rig.countsPerGf = countsPerGf;
    List<Cut> cuts = Recorder.of(rig, Press.ramp(2, 60, 100, Press.steady()), 5);
    assertThat(cuts).hasSize(1);
    Cut cut = cuts.get(0);
    assertThat(cut.outcome()).isEqualTo(Outcome.SEVERED);
    assertThat(cut.polarity()).isEqualTo(countsPerGf > 0 ? 1 : -1);
    Peak peak = cut.peak().orElseThrow();
    double scale = Math.abs(countsPerGf);
    assertThat(peak.estimateCounts() / scale)
        .isCloseTo(100, within(3 * peak.standardUncertaintyCounts() / scale));
    assertThat(peak.standardUncertaintyCounts() / scale).isLessThan(0.6);
  }
}
