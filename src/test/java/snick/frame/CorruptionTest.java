package snick.frame;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import snick.frame.binary.DeviceFrames;
import snick.frame.message.Answer;
import snick.frame.message.FrameSink;
import snick.frame.message.Hello;
import snick.frame.message.SampleBatch;
import snick.frame.message.Status;

/**
 * A million damaged frames, each followed by two good ones.
 *
 * <p>A CRC of 16 bits lets 2^−16 of random damage pass: of a million, 15.3 are expected at most
 * (bursts up to 16 bits never pass, and a wrong length or type is refused besides). The bound is
 * that mean and five Poisson standard deviations.
 */
class CorruptionTest {
  private static final int TRIALS = 1_000_000;
  private static final double EXPECTED = TRIALS / 65_536.0;
  private static final long BOUND = Math.round(EXPECTED + 5 * Math.sqrt(EXPECTED));
  private static final int FRAMES_A_TRIAL = 3;

  private final SplittableRandom random = new SplittableRandom(20_260_101);
  private final DeviceFrames frames = new DeviceFrames();
  private final int[] counts = new int[SampleBatch.MAX_SAMPLES];
  private final byte[] stream = new byte[4 * DeviceFrames.MAX_BYTES];
  private int length;

  /** A count that a batch of this number must have. */
  private static int count(long sequence, int i) {
    long mixed = (sequence + 1) * 0x9E3779B97F4A7C15L + i * 0xD1B54A32D192ED03L;
    return (int) (mixed ^ (mixed >>> 29)) << 8 >> 8;
  }

  private void append(long sequence, int n) {
    for (int i = 0; i < n; i++) {
      counts[i] = count(sequence, i);
    }
    long span = n == 1 ? 0 : n * 12_500L;
    length += frames.samples(sequence, sequence, span, counts, 0, n, stream, length);
  }

  @Test
  void noWrongSampleBeyondTheOddsAndRecoveryByTheSecondGoodFrame() {
    StreamDecoder decoder = StreamDecoder.ofAnyForm(StreamDecoder.Start.MIDWAY);
    Judge judge = new Judge();
    for (int trial = 0; trial < TRIALS; trial++) {
      long sequence = (long) FRAMES_A_TRIAL * trial;
      length = 0;
      append(sequence, 1 + random.nextInt(6));
      damage();
      append(sequence + 1, 1);
      append(sequence + 2, 2);
      judge.begin(sequence);
      decoder.accept(stream, 0, length, judge);
      assertThat(judge.secondGoodMet).as("trial %d: second good frame", trial).isTrue();
    }
    assertThat(judge.wrong)
        .as("wrong messages accepted, %.1f expected at most", EXPECTED)
        .isLessThanOrEqualTo(BOUND);
    assertThat(judge.firstGood)
        .as("damage rarely spoils the next frame too")
        .isGreaterThan(800_000);
    assertThat(judge.damagedMet).as("damage is damage").isLessThan(TRIALS / 100);
  }

  private void damage() {
    switch (random.nextInt(6)) {
      case 0 -> flipBits(1 + random.nextInt(8));
      case 1 -> overwrite(1 + random.nextInt(12));
      case 2 -> remove(1 + random.nextInt(4));
      case 3 -> insert(1 + random.nextInt(4));
      case 4 -> overwrite(length - 1);
      default -> swap();
    }
  }

  private void flipBits(int howMany) {
    for (int i = 0; i < howMany; i++) {
      stream[random.nextInt(length)] ^= (byte) (1 << random.nextInt(8));
    }
  }

  private void overwrite(int howMany) {
    int run = Math.min(howMany, length);
    int from = random.nextInt(length - run + 1);
    for (int i = from; i < from + run; i++) {
      stream[i] = (byte) random.nextInt();
    }
  }

  private void remove(int howMany) {
    int from = random.nextInt(length - howMany + 1);
    System.arraycopy(stream, from + howMany, stream, from, length - from - howMany);
    length -= howMany;
  }

  private void insert(int howMany) {
    int at = random.nextInt(length);
    System.arraycopy(stream, at, stream, at + howMany, length - at);
    for (int i = at; i < at + howMany; i++) {
      stream[i] = (byte) random.nextInt();
    }
    length += howMany;
  }

  private void swap() {
    int a = random.nextInt(length);
    int b = random.nextInt(length);
    byte kept = stream[a];
    stream[a] = (byte) (stream[b] ^ 1);
    stream[b] = kept;
  }

  /** Knows which batches may come, and what they hold. */
  private static final class Judge implements FrameSink {
    private long sequence;
    private boolean secondGoodMet;
    private long wrong;
    private long firstGood;
    private long damagedMet;

    void begin(long sequence) {
      this.sequence = sequence;
      this.secondGoodMet = false;
    }

    @Override
    public void samples(SampleBatch batch) {
      long which = batch.sequence() - sequence;
      if (which < 0 || which >= FRAMES_A_TRIAL || !isGenuine(batch)) {
        wrong++;
        return;
      }
      damagedMet += which == 0 ? 1 : 0;
      firstGood += which == 1 ? 1 : 0;
      secondGoodMet |= which == 2;
    }

    private static boolean isGenuine(SampleBatch batch) {
      boolean genuine =
          batch.firstMicros() == batch.sequence()
              && batch.spanMicros() == (batch.size() == 1 ? 0 : batch.size() * 12_500L);
      for (int i = 0; genuine && i < batch.size(); i++) {
        genuine = batch.counts(i) == count(batch.sequence(), i);
      }
      return genuine;
    }

    @Override
    public void hello(Hello hello) {
      wrong++;
    }

    @Override
    public void status(Status status) {
      wrong++;
    }

    @Override
    public void answer(Answer answer) {
      wrong++;
    }

    @Override
    public void announcement(String key, String value) {
      wrong++;
    }

    @Override
    public void decimals(int digits) {
      wrong++;
    }

    @Override
    public void reading(int counts) {
      wrong++;
    }

    @Override
    public void reading(long deviceMicros, int counts) {
      wrong++;
    }

    @Override
    public void flush() {}
  }
}
