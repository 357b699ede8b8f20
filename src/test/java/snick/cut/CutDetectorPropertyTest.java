package snick.cut;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import snick.sample.Gap;
import snick.sample.Rail;

/** Whatever the stream holds, the detector stays sound. */
class CutDetectorPropertyTest {
  @Property(tries = 600)
  void anyStreamIsSurvivedAndTracesHoldWhatWasFed(
      @ForAll long seed, @ForAll @IntRange(min = 1, max = 1500) int length) {
    Random random = new Random(seed);
    List<Cut> cuts = new ArrayList<>();
    Map<Long, Integer> fed = new HashMap<>();
    CutDetector detector = new CutDetector(DetectorSettings.defaults(), cuts::add);
    long time = 0;
    long spread = 1L << (10 + random.nextInt(24));
    double level = 0;
    for (int i = 0; i < length; i++) {
      long last = time;
      time += 1 + (long) (spread * (random.nextInt(3) == 0 ? random.nextDouble() : 0.5));
      int kind = random.nextInt(100);
      if (kind == 0) {
        Gap.Cause[] causes = Gap.Cause.values();
        detector.gap(new Gap(causes[random.nextInt(causes.length)], last, time, random.nextInt(9)));
      } else if (kind == 1) {
        Rail rail = random.nextBoolean() ? Rail.HIGH : Rail.LOW;
        detector.overrange(time, rail);
        fed.put(time, rail == Rail.HIGH ? 0x7FFFFF : -0x800000);
        continue;
      } else if (kind < 5) {
        level = random.nextInt(4) == 0 ? random.nextInt() : 1e5 * random.nextGaussian();
      } else if (kind < 60) {
        level += 300 * random.nextDouble();
      }
      int counts = kind == 6 ? random.nextInt() : (int) Math.rint(level);
      detector.sample(time, counts);
      fed.put(time, counts);
    }
    detector.end();
    assertThat(detector.inEvent()).isFalse();
    for (int i = 0; i < cuts.size(); i++) {
      assertThat(cuts.get(i).number()).isEqualTo(i + 1);
      check(cuts.get(i), fed);
      assertThat(i == 0 || begins(cuts.get(i)) >= begins(cuts.get(i - 1))).isTrue();
    }
  }

  private static long begins(Cut cut) {
    return cut.trace().deviceNanos(0);
  }

  private static void check(Cut cut, Map<Long, Integer> fed) {
    boolean parted = cut.outcome() == Outcome.SEVERED || cut.outcome() == Outcome.PARTED_IN_STEPS;
    assertThat(cut.breakNanos().isPresent()).isEqualTo(parted);
    Trace trace = cut.trace();
    for (int i = 0; i < trace.size(); i++) {
      assertThat(trace.counts(i)).isEqualTo(fed.get(trace.deviceNanos(i)));
      assertThat(i == 0 || trace.deviceNanos(i) > trace.deviceNanos(i - 1)).isTrue();
    }
  }
}
