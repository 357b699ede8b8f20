package snick.cut;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;

/**
 * Finds the cuts in readings that lie in memory as {@code analyze} does, forces estimated on a
 * second processor. The recording is gone through several times as if it went on; the last time is
 * timed. Prints seconds and the number of cuts. Arguments: a file of readings, 32 bits each,
 * little-endian, 80 a second; how many times.
 */
final class FindCuts {
  private static final long PERIOD_NANOS = 12_500_000;

  /** As many as the stream of samples hands on at once. */
  private static final int BLOCK_SAMPLES = 512;

  private final CutDetector detector;
  private final long[] blockNanos = new long[BLOCK_SAMPLES];
  private final int[] blockCounts = new int[BLOCK_SAMPLES];
  private long nanos;
  private int found;

  private FindCuts(ExecutorService beside) {
    detector = new CutDetector(DetectorSettings.defaults(), cut -> found++, beside);
  }

  public static void main(String[] args) throws IOException {
    byte[] bytes = Files.readAllBytes(Path.of(args[0]));
    int[] counts = new int[bytes.length / Integer.BYTES];
    ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN).asIntBuffer().get(counts);
    ExecutorService beside = Executors.newSingleThreadExecutor();
    FindCuts finding = new FindCuts(beside);
    for (int pass = 1; pass < Integer.parseInt(args[1]); pass++) {
      finding.pass(counts);
    }
    finding.found = 0;
    long start = System.nanoTime();
    finding.pass(counts);
    System.out.printf(Locale.ROOT, "%.4f %d%n", (System.nanoTime() - start) / 1e9, finding.found);
    beside.shutdown();
  }

  private void pass(int[] counts) {
    for (int from = 0; from < counts.length; from += BLOCK_SAMPLES) {
      int size = Math.min(BLOCK_SAMPLES, counts.length - from);
      for (int i = 0; i < size; i++) {
        blockNanos[i] = nanos;
        blockCounts[i] = counts[from + i];
        nanos += PERIOD_NANOS;
      }
      detector.samples(blockNanos, blockCounts, size);
    }
    detector.handOn();
  }
}
