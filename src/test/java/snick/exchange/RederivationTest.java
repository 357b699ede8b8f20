package snick.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import snick.cut.Cut;
import snick.cut.CutDetector;
import snick.cut.DetectorSettings;
import snick.cut.Outcome;
import snick.cut.Peak;
import snick.sample.Gap;

/** What was found live is found again in the trace alone. */
class RederivationTest {
  private static final long PERIOD_NANOS = 12_500_000;
  private static final double NOISE_COUNTS = 65;

  private final Random random = new Random(3);
  private final Rederivation rederivation = new Rederivation();
  private final List<Cut> cuts = new ArrayList<>();
  private final CutDetector detector = new CutDetector(DetectorSettings.defaults(), cuts::add);
  private long nanos;

  private void feed(int n, double perSampleCounts) {
    for (int i = 0; i < n; i++) {
      double counts = 81_234 + i * perSampleCounts + NOISE_COUNTS * random.nextGaussian();
      detector.sample(nanos, (int) Math.rint(counts));
      nanos += PERIOD_NANOS;
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {2, 4, 12, 24, 80})
  void soonAfterSamplesWereLost(int restAfter) {
    feed(400, 0);
    long before = nanos - PERIOD_NANOS;
    nanos += 20 * PERIOD_NANOS;
    detector.gap(new Gap(Gap.Cause.LOST_SAMPLES, before, nanos, 20));
    feed(restAfter, 0);
    feed(40, 200);
    feed(100, 0);
    detector.end();
    assertThat(cuts).hasSize(1);
    Cut live = cuts.get(0);
    assertThat(live.outcome()).isEqualTo(Outcome.SEVERED);
    Optional<Cut> again = rederivation.of(live);
    assertThat(again).isPresent();
    double force = live.peak().orElseThrow().estimateCounts();
    assertThat(again.get().peak().orElseThrow().estimateCounts())
        .isCloseTo(force, within(NOISE_COUNTS));
  }

  @ParameterizedTest
  @ValueSource(ints = {13, 16, 20, 24, 32, 40})
  void amongLoadingsInQuickSuccession(int rest) {
    feed(400, 0);
    for (int k = 0; k < 12; k++) {
      feed(60, 600);
      feed(rest, 0);
    }
    feed(100, 0);
    detector.end();
    assertThat(cuts).hasSize(12);
    for (Cut live : cuts) {
      Cut again = rederivation.of(live).orElseThrow();
      assertThat(again.outcome()).isEqualTo(live.outcome());
      Peak stated = live.peak().orElseThrow();
      assertThat(again.peak().orElseThrow().estimateCounts())
          .isCloseTo(stated.estimateCounts(), within(2 * stated.standardUncertaintyCounts()));
    }
  }
}
