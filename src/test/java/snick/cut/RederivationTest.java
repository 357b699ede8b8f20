package snick.cut;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import snick.cut.response.Response;
import snick.cut.rest.Before;
import snick.sample.Gap;
import snick.sample.Rail;

/** What was found live is found again in the trace, to the last digit, whatever came before. */
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

  private void lose(int samples) {
    long before = nanos - PERIOD_NANOS;
    nanos += samples * PERIOD_NANOS;
    detector.gap(new Gap(Gap.Cause.LOST_SAMPLES, before, nanos, samples));
  }

  /** In another order than they came in: what one leaves behind must not touch the next. */
  private void assertAllTheSame(int atLeast) {
    detector.end();
    assertThat(cuts).hasSizeGreaterThanOrEqualTo(atLeast);
    Collections.shuffle(cuts, random);
    for (Cut live : cuts) {
      assertThat(rederivation.of(live)).as("cut %s", live.number()).contains(live);
    }
  }

  /** Rigs that ring, drift and keep a load, 80 to 1,000 samples/s, their response learned. */
  @Test
  void quickCutsOnRandomRigs() {
    LongStream rates = LongStream.range(0, 6);
    LongStream near320 =
        LongStream.range(900, 1_000)
            .filter(seed -> Math.abs(new StrangersRig(seed).rateHz - 320) < 30)
            .limit(2);
    LongStream.concat(rates, near320).forEach(this::cutQuickly);
    assertThat(cuts.stream().filter(cut -> cut.response().known())).isNotEmpty();
    assertThat(cuts.stream().map(cut -> cut.trace().before().orElseThrow().rest().settled()))
        .contains(true, false);
    assertAllTheSame(85);
  }

  private void cutQuickly(long seed) {
    StrangersRig rig = new StrangersRig(seed).record(12, 0.35, 1);
    CutDetector learning =
        CutDetector.learning(DetectorSettings.defaults(), cuts::add, Runnable::run);
    for (int i = 0; i < rig.counts.length; i++) {
      learning.sample(rig.nanos[i], rig.counts[i]);
    }
    learning.end();
  }

  @ParameterizedTest
  @ValueSource(ints = {2, 4, 12, 24, 80})
  void soonAfterSamplesWereLost(int restAfter) {
    feed(400, 0);
    lose(20);
    feed(restAfter, 0);
    feed(40, 200);
    feed(100, 0);
    assertAllTheSame(1);
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
    assertAllTheSame(12);
  }

  @Test
  void withSamplesLostInTheLoadingOrAtARail() {
    feed(400, 0);
    feed(20, 600);
    lose(3);
    feed(20, 600);
    feed(30, 0);
    feed(40, 600);
    for (int i = 0; i < 5; i++) {
      detector.overrange(nanos, Rail.HIGH);
      nanos += PERIOD_NANOS;
    }
    feed(100, 0);
    assertAllTheSame(2);
  }

  @ParameterizedTest
  @ValueSource(booleans = {true, false})
  void cutOffInTheLoading(boolean byTheDevice) {
    feed(400, 0);
    feed(30, 600);
    if (byTheDevice) {
      detector.gap(new Gap(Gap.Cause.DEVICE_RESET, nanos - PERIOD_NANOS, nanos - PERIOD_NANOS, 0));
    }
    assertAllTheSame(1);
  }

  /** What came before is taken from a package of somebody else: nothing in it may do harm. */
  @Test
  void whateverIsStatedOfBefore() {
    feed(400, 0);
    feed(40, 600);
    feed(100, 0);
    detector.end();
    Trace trace = cuts.get(0).trace();
    Before told = trace.before().orElseThrow();
    double[] wild = {1e-300, 1e-9, 1, 12.5e6, 1e12, 1e300, -1e300, Double.NaN, 0};
    for (int i = 0; i < 3_000; i++) {
      double[] r = random.doubles(11, 0, wild.length).map(at -> wild[(int) at]).toArray();
      Before.Zero zero = new Before.Zero(r[0], r[1], r[2], r[3], r[4], random.nextLong());
      int began = random.nextInt(trace.size());
      try {
        Before stated =
            new Before(
                random.nextBoolean() ? told.began() : began,
                random.nextBoolean() ? 1 : -1,
                random.nextInt(-1, 2),
                new Before.AtRest(
                    random.nextBoolean() ? told.rest().levelCounts() : r[5],
                    random.nextBoolean() ? told.rest().fromCounts() : r[6],
                    random.nextBoolean() ? told.rest().noiseCounts() : Math.abs(r[7]),
                    random.nextBoolean() ? told.rest().bandCounts() : Math.abs(r[8]),
                    random.nextBoolean(),
                    random.nextBoolean()),
                random.nextBoolean() ? told.periodNanos() : Math.abs(r[9]),
                random.nextBoolean() ? told.zero() : zero);
        rederivation.of(stated(trace, stated), Response.unknown());
      } catch (IllegalArgumentException refused) {
        assertThat(refused).hasMessageMatching("(?s).+");
      }
    }
  }

  private Cut stated(Trace trace, Before before) {
    int n = trace.size();
    long[] times = new long[n];
    int[] counts = new int[n];
    for (int i = 0; i < n; i++) {
      times[i] = trace.deviceNanos(i);
      counts[i] = trace.counts(i);
    }
    Cut cut = cuts.get(0);
    Trace stated =
        new Trace(times, counts, new boolean[n], List.of(), java.util.Optional.of(before));
    return new Cut(
        1,
        new CutFigures(
            cut.outcome(),
            cut.polarity(),
            cut.onsetNanos(),
            cut.breakNanos(),
            cut.peak(),
            cut.shape(),
            cut.rest(),
            cut.flags()),
        stated);
  }
}
