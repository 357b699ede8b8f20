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
 * second processor: several passes in this process, the last is timed. Prints seconds and the
 * number of cuts. Arguments: a file of readings, 32 bits each, little-endian, 80 a second; the
 * number of passes.
 */
final class FindCuts {
  private static final long PERIOD_NANOS = 12_500_000;

  /** As many as the stream of samples hands on at once. */
  private static final int BLOCK_SAMPLES = 512;

  private final ExecutorService beside;
  private int found;

  private FindCuts(ExecutorService beside) {
    this.beside = beside;
  }

  public static void main(String[] args) throws IOException {
    byte[] bytes = Files.readAllBytes(Path.of(args[0]));
    int[] counts = new int[bytes.length / Integer.BYTES];
    ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN).asIntBuffer().get(counts);
    ExecutorService beside = Executors.newSingleThreadExecutor();
    for (int pass = 1; pass < Integer.parseInt(args[1]); pass++) {
      new FindCuts(beside).pass(counts);
    }
    FindCuts last = new FindCuts(beside);
    long start = System.nanoTime();
    last.pass(counts);
    System.out.printf(Locale.ROOT, "%.4f %d%n", (System.nanoTime() - start) / 1e9, last.found);
    beside.shutdown();
  }

  private void pass(int[] counts) {
    CutDetector detector = new CutDetector(DetectorSettings.defaults(), cut -> found++, beside);
    long[] nanos = new long[BLOCK_SAMPLES];
    int[] block = new int[BLOCK_SAMPLES];
    for (int from = 0; from < counts.length; from += BLOCK_SAMPLES) {
      int size = Math.min(BLOCK_SAMPLES, counts.length - from);
      for (int i = 0; i < size; i++) {
        nanos[i] = (from + i) * PERIOD_NANOS;
        block[i] = counts[from + i];
      }
      detector.samples(nanos, block, size);
    }
    detector.end();
  }
}
