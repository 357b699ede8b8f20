package snick.sample;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import snick.frame.BatchFixture;
import snick.quantity.SampleRate;

/** Frames whose checksums are right and whose times no device can have lived through. */
class DeviceTimeLimitTest {
  private static final long LONGEST_SPAN_MICROS = 0xFFFF_FFFFL;
  private static final long LIMIT_NANOS = 1L << 62;

  @Test
  void timeStandsStillBeforeItOverflows() {
    Samples samples = new Samples();
    SampleStream stream = new SampleStream(new SampleRate(80), samples);
    stream.samples(BatchFixture.batch(0, 0, LONGEST_SPAN_MICROS, 1, 2));
    stream.samples(BatchFixture.batch(2, 0, LONGEST_SPAN_MICROS, 1, 2));
    for (long sequence = 4; sequence < 1L << 32; sequence += 1L << 30) {
      stream.samples(BatchFixture.batch(sequence + 1000, 0, LONGEST_SPAN_MICROS, 3, 4));
    }
    stream.flush();
    assertThat(samples.nanos).isSorted().allMatch(nanos -> nanos >= 0 && nanos <= LIMIT_NANOS);
    assertThat(samples.nanos.get(samples.nanos.size() - 1)).isEqualTo(LIMIT_NANOS);
  }

  @Test
  void aPrintedTimeBeyondAllMeasureStandsStillToo() {
    Samples samples = new Samples();
    SampleStream stream = new SampleStream(new SampleRate(80), samples);
    stream.reading(1L << 40, 1);
    stream.reading(Long.MAX_VALUE, 2);
    stream.flush();
    assertThat(samples.nanos).containsExactly(0L, LIMIT_NANOS / 1000 * 1000);
  }
}
