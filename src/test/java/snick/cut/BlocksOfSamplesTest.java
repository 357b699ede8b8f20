package snick.cut;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import snick.cut.estimate.BreakEstimator;
import snick.sample.Gap;
import snick.sample.Rail;

/** However samples come grouped, the detector finds the same. */
class BlocksOfSamplesTest {
  private final BreakEstimator estimator = new BreakEstimator();

  private static final long PERIOD_NANOS = 12_500_000;

  @Property(tries = 200)
  void cutsAreThoseOfTheSamplesOneByOne(
      @ForAll long seed, @ForAll @IntRange(min = 1, max = 700) int mostInBlock) {
    Random random = new Random(seed);
    List<Cut> single = new ArrayList<>();
    List<Cut> grouped = new ArrayList<>();
    CutDetector one = new CutDetector(DetectorSettings.defaults(), single::add, estimator);
    CutDetector many = new CutDetector(DetectorSettings.defaults(), grouped::add, estimator);
    long nanos = 0;
    for (int piece = 0; piece < 12; piece++) {
      nanos = loading(one, many, random, nanos, mostInBlock);
      nanos = interruption(one, many, random, nanos);
    }
    one.end();
    many.end();
    assertThat(grouped).isEqualTo(single);
    assertThat(many.levelCounts()).isEqualTo(one.levelCounts());
    assertThat(many.noiseCounts()).isEqualTo(one.noiseCounts());
    assertThat(many.triggerCounts()).isEqualTo(one.triggerCounts());
    assertThat(many.rateHertz()).isEqualTo(one.rateHertz());
  }

  /** Rest, a ramp that parts or is let go, rest; now and then a spike. */
  private static long loading(
      CutDetector one, CutDetector many, Random random, long from, int mostInBlock) {
    int rest = random.nextInt(200);
    int ramp = random.nextInt(120);
    int n = rest + ramp + random.nextInt(80);
    double perSample = 50 + 2000 * random.nextDouble();
    boolean parts = random.nextInt(4) > 0;
    double jitter = random.nextInt(3) == 0 ? 0.4 : 0;
    long[] times = new long[n];
    int[] counts = new int[n];
    for (int i = 0; i < n; i++) {
      int loaded = i - rest;
      int fall = parts ? 0 : Math.max(0, 2 * ramp - loaded);
      double force = loaded < 0 ? 0 : perSample * (loaded < ramp ? loaded : fall);
      double spike = random.nextInt(150) == 0 ? 20_000 * random.nextGaussian() : 0;
      counts[i] = (int) Math.rint(5000 + force + spike + 60 * random.nextGaussian());
      times[i] = from + i * PERIOD_NANOS + (long) (jitter * PERIOD_NANOS * random.nextDouble());
      one.sample(times[i], counts[i]);
    }
    inBlocks(many, times, counts, random, mostInBlock);
    return from + n * PERIOD_NANOS;
  }

  private static void inBlocks(
      CutDetector many, long[] times, int[] counts, Random random, int mostInBlock) {
    int at = 0;
    while (at < times.length) {
      int n = Math.min(times.length - at, 1 + random.nextInt(mostInBlock));
      long[] blockTimes = new long[n + 3];
      int[] blockCounts = new int[n + 3];
      System.arraycopy(times, at, blockTimes, 0, n);
      System.arraycopy(counts, at, blockCounts, 0, n);
      many.samples(blockTimes, blockCounts, n);
      at += n;
    }
  }

  private static long interruption(CutDetector one, CutDetector many, Random random, long from) {
    long to = from + (1 + random.nextInt(300)) * PERIOD_NANOS;
    switch (random.nextInt(4)) {
      case 0 -> {
        Gap.Cause[] causes = Gap.Cause.values();
        Gap gap = new Gap(causes[random.nextInt(causes.length)], from, to, 3);
        one.gap(gap);
        many.gap(gap);
        return to;
      }
      case 1 -> {
        for (int i = random.nextInt(3); i >= 0; i--) {
          one.overrange(from, Rail.HIGH);
          many.overrange(from, Rail.HIGH);
        }
        return from + PERIOD_NANOS;
      }
      default -> {
        return from;
      }
    }
  }
}
