package snick.cut;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snick.cut.rest.RestRing;
import snick.sample.Gap;

/** Samples lost while the filament rests belong to the trace of the cut after, not to the cut. */
class GapAtRestTest {
  private static final int ONSET = 320;
  private static final int LOST = 20;

  private final List<Cut> cuts = new ArrayList<>();
  private final CutDetector detector = new CutDetector(DetectorSettings.defaults(), cuts::add);
  private final RigModel rig = new RigModel(80, RigModel.Filter.SINC4, 0.15, 11);

  /** A cut at 100 gf; twenty samples are missing until {@code restAfter} samples before onset. */
  private Cut cutAfterGap(int restAfter, long jitterNanos) {
    Random random = new Random(5);
    double[] readings = rig.readings(Press.ramp(ONSET / 80.0, 150, 100, Press.steady()), 6);
    int next = ONSET - restAfter;
    for (int i = 0; i < readings.length; i++) {
      if (i == next) {
        detector.gap(gap(next - LOST - 1, next));
      }
      if (i < next - LOST || i >= next) {
        long late = (long) (jitterNanos * random.nextDouble());
        detector.sample(rig.nanos(i) + late, rig.counts(readings[i]));
      }
    }
    detector.end();
    assertThat(cuts).hasSize(1);
    return cuts.get(0);
  }

  private Gap gap(int before, int after) {
    int lost = after - before - 1;
    return new Gap(Gap.Cause.LOST_SAMPLES, rig.nanos(before), rig.nanos(after), lost);
  }

  @ParameterizedTest
  @CsvSource({"12,0", "24,0", "80,0", "24,2000000", "80,2000000"})
  void theTraceGoesOnBeforeItAndTheForceIsWhatItWas(int restAfter, long jitterNanos) {
    Cut cut = cutAfterGap(restAfter, jitterNanos);
    assertThat(cut.outcome()).isEqualTo(Outcome.SEVERED);
    assertThat(cut.flags()).doesNotContain(Flag.GAP_INSIDE);
    int next = ONSET - restAfter;
    assertThat(cut.trace().gaps()).containsExactly(gap(next - LOST - 1, next));
    long restNanos = cut.onsetNanos() - cut.trace().deviceNanos(0);
    assertThat(restNanos).isBetween(1_900_000_000L, 2_000_000_000L);
    assertThat(Recorder.gf(cut)).isCloseTo(100, within(0.3));
    assertThat(Recorder.uncertaintyGf(cut)).isLessThan(0.5);
  }

  @Test
  void justBeforeTheLoadingItIsAPartOfIt() {
    Cut cut = cutAfterGap(2, 0);
    assertThat(cut.flags()).contains(Flag.GAP_INSIDE);
    assertThat(cut.trace().gaps()).hasSize(1);
  }

  @Test
  void tooLongAgoForTheTraceItIsForgotten() {
    Cut cut = cutAfterGap(170, 0);
    assertThat(cut.trace().gaps()).isEmpty();
    assertThat(cut.flags()).isEmpty();
  }

  @Test
  void ofTooManyTheRestBeforeTheOldestIsForgotten() {
    RestRing ring = new RestRing();
    for (int i = 0; i < 400; i++) {
      ring.gap(gap(i, i + 1));
      ring.add(rig.nanos(i + 1), i, false);
    }
    List<Gap> kept = new ArrayList<>();
    ring.gaps(1, RestRing.CAPACITY, kept);
    assertThat(kept).hasSize(RestRing.MOST_GAPS).endsWith(gap(399, 400));
    assertThat(ring.size()).isEqualTo(RestRing.MOST_GAPS + 1);
    for (int i = 400; i < 400 + RestRing.CAPACITY; i++) {
      ring.add(rig.nanos(i + 1), i, false);
    }
    ring.gap(gap(9000, 9001));
    kept.clear();
    ring.gaps(0, RestRing.CAPACITY, kept);
    assertThat(kept).containsExactly(gap(9000, 9001));
    ring.cutOff();
    kept.clear();
    assertThat(ring.gaps(0, 77, kept)).isEqualTo(77);
    assertThat(kept).isEmpty();
  }
}
