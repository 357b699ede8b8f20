package snick.sample;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import snick.frame.BatchFixture;
import snick.frame.message.Hello;
import snick.quantity.SampleRate;

class SampleStreamTest {
  private static final long WRAP = 1L << 32;
  private static final long PERIOD_MICROS = 12_500;

  private final Samples samples = new Samples();
  private final SampleStream stream = new SampleStream(new SampleRate(80), samples);

  @Test
  void timesWithinABatchLieEvenlyBetweenItsStamps() {
    stream.samples(BatchFixture.batch(0, 7_000, 37_500, 1, 2, 3, 4));

    stream.flush();
    assertThat(samples.nanos).containsExactly(0L, 12_500_000L, 25_000_000L, 37_500_000L);
    assertThat(samples.counts).containsExactly(1, 2, 3, 4);
    assertThat(stream.periodNanos()).isCloseTo(12.5e6, within(1.0));
  }

  @Test
  void timeGoesOnAcrossBatches() {
    stream.samples(BatchFixture.batch(0, 7_000, 12_500, 1, 2));
    stream.samples(BatchFixture.batch(2, 32_000, 12_500, 3, 4));

    stream.flush();
    assertThat(samples.nanos).containsExactly(0L, 12_500_000L, 25_000_000L, 37_500_000L);
    assertThat(samples.gaps).isEmpty();
  }

  @Test
  void aHoleInTheSequenceIsAGapOfKnownSize() {
    stream.samples(BatchFixture.batch(0, 0, 0, 1));
    stream.samples(BatchFixture.batch(4, 4 * PERIOD_MICROS, 0, 5));

    stream.flush();
    assertThat(samples.gaps).containsExactly(new Gap(Gap.Cause.LOST_SAMPLES, 0, 50_000_000, 3));
    assertThat(stream.facts().lost().samples()).isEqualTo(3);
  }

  @Test
  void theMicrosecondCounterWrapsWithoutATrace() {
    stream.samples(BatchFixture.batch(10, WRAP - PERIOD_MICROS, 0, 1));
    stream.samples(BatchFixture.batch(11, 0, 0, 2));
    stream.samples(BatchFixture.batch(12, PERIOD_MICROS, 0, 3));

    stream.flush();
    assertThat(samples.nanos).containsExactly(0L, 12_500_000L, 25_000_000L);
    assertThat(samples.gaps).isEmpty();
    assertThat(stream.facts().clockWraps()).isEqualTo(1);
  }

  @Test
  void aWrapInsideABatchIsFollowed() {
    stream.samples(BatchFixture.batch(10, WRAP - 5_000, 12_500, 1, 2));
    stream.samples(BatchFixture.batch(12, 20_000, 0, 3));

    stream.flush();
    assertThat(samples.nanos).containsExactly(0L, 12_500_000L, 25_000_000L);
  }

  @Test
  void theSequenceWrapsWithoutAGap() {
    stream.samples(BatchFixture.batch(WRAP - 1, 0, 0, 1));
    stream.samples(BatchFixture.batch(0, PERIOD_MICROS, 0, 2));

    stream.flush();
    assertThat(samples.gaps).isEmpty();
  }

  @Test
  void aLossLongerThanTheCountersRangeKeepsItsTime() {
    long missing = 400_000;
    stream.samples(BatchFixture.batch(0, 0, 12_500, 1, 2));
    long micros = ((missing + 2) * PERIOD_MICROS) % WRAP;
    stream.samples(BatchFixture.batch(missing + 2, micros, 0, 3));

    stream.flush();
    assertThat(samples.gaps).hasSize(1);
    assertThat(samples.gaps.get(0).lostSamples()).isEqualTo(missing);
    assertThat(samples.nanos.get(2)).isEqualTo((missing + 2) * PERIOD_MICROS * 1000);
  }

  @Test
  void aResetGoesOnOnePeriodLaterAndIsMarked() {
    stream.samples(BatchFixture.batch(1000, 90_000_000, 12_500, 1, 2));
    stream.samples(BatchFixture.batch(0, 3_000, 12_500, 3, 4));

    stream.flush();
    assertThat(samples.gaps).extracting(Gap::cause).containsExactly(Gap.Cause.DEVICE_RESET);
    assertThat(samples.nanos).containsExactly(0L, 12_500_000L, 25_000_000L, 37_500_000L);
    assertThat(stream.facts().restarts()).isEqualTo(1);
  }

  @Test
  void aResetThatLooksLikeALossIsSeenByTheClock() {
    stream.samples(BatchFixture.batch(3, 4_000_000_000L, 0, 1));
    stream.samples(BatchFixture.batch(6, 75_000, 0, 2));

    stream.flush();
    assertThat(samples.gaps).extracting(Gap::cause).containsExactly(Gap.Cause.DEVICE_RESET);
  }

  @Test
  void aPauseWithoutAHoleInTheSequenceKeepsItsTime() {
    stream.samples(BatchFixture.batch(3, 4_000_000_000L, 0, 1));
    stream.samples(BatchFixture.batch(4, 4_010_000_000L, 0, 2));

    stream.flush();
    assertThat(samples.gaps).containsExactly(new Gap(Gap.Cause.PAUSED, 0, 10_000_000_000L, 0));
    assertThat(stream.facts().restarts()).isZero();
  }

  /** Rails of a 24-bit converter: 0x7FFFFF and 0x800000 (converter data sheets, out of range). */
  @Test
  void railCodesAreValuesNotNumbers() {
    stream.samples(BatchFixture.batch(0, 0, 25_000, 8_388_607, 5, -8_388_608));

    stream.flush();
    assertThat(samples.rails).containsExactly(Rail.HIGH, Rail.LOW);
    assertThat(samples.counts).containsExactly(5);
    assertThat(stream.facts().overrange()).isEqualTo(2);
  }

  @Test
  void railCodesFollowTheConvertersBits() {
    stream.hello(hello(16, 128));
    stream.samples(BatchFixture.batch(0, 0, 12_500, 32_767, 32_766));

    stream.flush();
    assertThat(samples.rails).containsExactly(Rail.HIGH);
    assertThat(samples.counts).containsExactly(32_766);
  }

  @Test
  void anotherGainBreaksTheSeries() {
    stream.hello(hello(24, 128));
    stream.samples(BatchFixture.batch(0, 0, 0, 1));
    stream.hello(hello(24, 64));

    stream.flush();
    assertThat(samples.gaps).extracting(Gap::cause).containsExactly(Gap.Cause.FORM_CHANGED);
  }

  @Test
  void askingForHelloAgainBreaksNothing() {
    stream.hello(hello(24, 128));
    stream.samples(BatchFixture.batch(0, 0, 0, 1));
    stream.hello(hello(24, 128));

    stream.flush();
    assertThat(samples.gaps).isEmpty();
  }

  @Test
  void textWithoutTimeTakesTheAnnouncedRate() {
    stream.announcement("rate", "10");
    stream.reading(1);
    stream.reading(2);

    stream.flush();
    assertThat(samples.nanos).containsExactly(0L, 100_000_000L);
    assertThat(stream.facts().timelessSamples()).isEqualTo(2);
  }

  @Test
  void anAbsurdAnnouncementIsIgnored() {
    stream.announcement("rate", "0");
    stream.announcement("rate", "NaN");
    stream.announcement("rate", "1e999");
    stream.announcement("gain", "999999999");
    stream.reading(1);
    stream.reading(2);

    stream.flush();
    assertThat(samples.nanos).containsExactly(0L, 12_500_000L);
    assertThat(stream.gain()).isEmpty();
  }

  @Test
  void printedTimeThatWrapsIsFollowed() {
    stream.reading(WRAP - PERIOD_MICROS, 1);
    stream.reading(0, 2);

    stream.flush();
    assertThat(samples.nanos).containsExactly(0L, 12_500_000L);
    assertThat(samples.gaps).isEmpty();
  }

  @Test
  void printedTimeWiderThan32BitsDoesNotWrap() {
    stream.reading(WRAP * 3 - PERIOD_MICROS, 1);
    stream.reading(WRAP * 3, 2);

    stream.flush();
    assertThat(samples.nanos).containsExactly(0L, 12_500_000L);
  }

  @Test
  void printedTimeThatGoesBackIsAReset() {
    stream.reading(900_000_000, 1);
    stream.reading(1_000, 2);

    stream.flush();
    assertThat(samples.gaps).extracting(Gap::cause).containsExactly(Gap.Cause.DEVICE_RESET);
  }

  @Test
  void aMissingLineShowsInPrintedTime() {
    for (int i = 0; i < 20; i++) {
      stream.reading(i * PERIOD_MICROS, i);
    }
    stream.reading(22 * PERIOD_MICROS, 22);

    stream.flush();
    assertThat(samples.gaps).hasSize(1);
    assertThat(samples.gaps.get(0).lostSamples()).isEqualTo(2);
  }

  @Test
  void aSlowerRateIsLearnedInsteadOfCallingEverySampleLost() {
    for (int i = 0; i < 20; i++) {
      stream.reading(i * PERIOD_MICROS, i);
    }
    for (int i = 1; i <= 100; i++) {
      stream.reading(19 * PERIOD_MICROS + i * 100_000L, i);
    }

    stream.flush();
    assertThat(samples.gaps.size()).isLessThan(8);
    assertThat(stream.periodNanos()).isCloseTo(100e6, within(1e5));
  }

  @Test
  void decimalReadingsHaveNoRails() {
    stream.decimals(4);
    stream.reading(8_388_607);

    stream.flush();
    assertThat(samples.counts).containsExactly(8_388_607);
    assertThat(samples.gaps).isEmpty();
  }

  private static Hello hello(int bits, int gain) {
    return new Hello(1, 7, "test", bits, gain, 80_000, 20_000_000);
  }

  @Test
  void samplesWaitForAFullBlockOrAPauseOrWhateverChangesTheirMeaning() {
    for (int i = 0; i < 511; i++) {
      stream.reading(i * 1000L, i);
    }
    assertThat(samples.counts).isEmpty();
    stream.reading(511_000, 511);
    assertThat(samples.counts).hasSize(512).endsWith(511);
    stream.reading(512_000, 512);
    stream.announcement("gain", "64");
    assertThat(samples.counts).endsWith(512);
    stream.reading(513_000, 513);
    stream.decimals(1);
    assertThat(samples.counts).endsWith(513);
    assertThat(samples.gaps).hasSize(1);
    stream.reading(514_000, 514);
    stream.end();
    assertThat(samples.counts).endsWith(514);
    assertThat(samples.ended).isTrue();
  }

  /** A logger that stalls for 140 ms stamps what it kept meanwhile when it writes it. */
  @Test
  void readingsSentLateAfterAStallAreAGapAndNoRate() {
    long micros = 0;
    for (int i = 0; i < 200; i++) {
      micros += i % 2 == 0 ? 11_000 : 12_000;
      stream.reading(micros, i);
    }
    double periodNanos = stream.periodNanos();
    for (int stall = 0; stall < 20; stall++) {
      micros += 140_000;
      stream.reading(micros, 1000);
      for (int kept = 0; kept < 11; kept++) {
        micros += 1000;
        stream.reading(micros, 2000);
      }
      for (int i = 0; i < 40; i++) {
        micros += i % 2 == 0 ? 11_000 : 12_000;
        stream.reading(micros, 3000);
      }
    }
    stream.flush();

    assertThat(stream.periodNanos()).isCloseTo(periodNanos, within(0.02 * periodNanos));
    assertThat(samples.gaps).hasSize(20).allMatch(gap -> gap.cause() == Gap.Cause.LOST_SAMPLES);
    assertThat(samples.counts).doesNotContain(2000);
    assertThat(stream.facts().restarts()).isZero();
  }
}
