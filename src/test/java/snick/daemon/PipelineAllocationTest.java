package snick.daemon;

import static java.nio.charset.StandardCharsets.US_ASCII;
import static org.assertj.core.api.Assertions.assertThat;

import com.sun.management.ThreadMXBean;
import java.io.ByteArrayOutputStream;
import java.lang.management.ManagementFactory;
import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import snick.frame.binary.DeviceFrames;

/**
 * Samples at rest cost no memory, whatever the compiler makes of the code; a cut costs a bounded
 * amount. Every filter, break and prior that is tried for a cut costs an object or two, so the
 * bound on bytes also bounds the work, by a figure that does not depend on the machine.
 */
class PipelineAllocationTest {
  private static final int SAMPLES = 1_000_000;
  private static final int PIECE_BYTES = 1 << 16;
  private static final long MICROS_PER_SAMPLE = 12_500;

  private final ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
  private int cuts;
  private final Pipeline pipeline = new Pipeline(Pipeline.Settings.defaults(), cut -> cuts++);

  @Test
  void textAtRestAllocatesNothing() {
    feed(text(new Random(1), 0, 20_000, 0));
    byte[] rest = text(new Random(2), 20_000, SAMPLES, 0);
    assertThat(allocatedBy(rest)).isLessThan(SAMPLES / 100);
    assertThat(cuts).isZero();
  }

  @Test
  void binaryAtRestAllocatesNothing() {
    feed(binary(0, 20_000));
    byte[] rest = binary(20_000, SAMPLES);
    assertThat(allocatedBy(rest)).isLessThan(SAMPLES / 100);
    assertThat(cuts).isZero();
  }

  @Test
  void aCutAllocatesABoundedAmount() {
    int cycle = 320;
    feed(text(new Random(3), 0, 300 * cycle, cycle));
    cuts = 0;
    long bytes = allocatedBy(text(new Random(4), 300 * cycle, 300 * cycle, cycle));
    assertThat(cuts).isBetween(299, 301);
    assertThat(bytes / cuts).isLessThan(100_000);
  }

  private long allocatedBy(byte[] bytes) {
    byte[] piece = new byte[PIECE_BYTES];
    long before = threads.getCurrentThreadAllocatedBytes();
    for (int at = 0; at < bytes.length; at += PIECE_BYTES) {
      int length = Math.min(PIECE_BYTES, bytes.length - at);
      System.arraycopy(bytes, at, piece, 0, length);
      pipeline.accept(piece, length);
    }
    return threads.getCurrentThreadAllocatedBytes() - before;
  }

  private void feed(byte[] bytes) {
    pipeline.accept(bytes, bytes.length);
  }

  /** Readings with time stamps; if {@code cycle} is not 0, a cut in the middle of each cycle. */
  private static byte[] text(Random random, int from, int n, int cycle) {
    StringBuilder lines = new StringBuilder(20 * n);
    for (int i = from; i < from + n; i++) {
      int place = cycle == 0 ? 0 : i % cycle;
      double load = place > 160 && place < 280 ? 300 * (place - 160 + 0.3 * (i / cycle % 3)) : 0;
      lines.append(MICROS_PER_SAMPLE * i % (1L << 32)).append(',');
      lines.append(Math.round(84_000 + load + 66 * random.nextGaussian())).append('\n');
    }
    return lines.toString().getBytes(US_ASCII);
  }

  private static byte[] binary(int from, int n) {
    Random random = new Random(from);
    ByteArrayOutputStream out = new ByteArrayOutputStream(8 * n);
    DeviceFrames frames = new DeviceFrames();
    byte[] frame = new byte[DeviceFrames.MAX_BYTES];
    int[] batch = new int[4];
    for (int i = from; i < from + n; i += batch.length) {
      Arrays.setAll(batch, k -> (int) Math.round(84_000 + 66 * random.nextGaussian()));
      long micros = MICROS_PER_SAMPLE * i % (1L << 32);
      int length =
          frames.samples(i, micros, MICROS_PER_SAMPLE * 3, batch, 0, batch.length, frame, 0);
      out.write(frame, 0, length);
    }
    return out.toByteArray();
  }
}
