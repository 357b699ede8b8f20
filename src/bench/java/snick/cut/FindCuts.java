package snick.cut;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;

/**
 * Finds the cuts in readings that lie in memory: two passes in this process, the second is timed.
 * Prints seconds and the number of cuts. Argument: a file of readings, 32 bits each, little-endian,
 * 80 a second.
 */
final class FindCuts {
  private static final long PERIOD_NANOS = 12_500_000;

  /** As many as the stream of samples hands on at once. */
  private static final int BLOCK_SAMPLES = 512;

  private int found;

  private FindCuts() {}

  public static void main(String[] args) throws IOException {
    byte[] bytes = Files.readAllBytes(Path.of(args[0]));
    int[] counts = new int[bytes.length / Integer.BYTES];
    ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN).asIntBuffer().get(counts);
    new FindCuts().pass(counts);
    FindCuts second = new FindCuts();
    long start = System.nanoTime();
    second.pass(counts);
    System.out.printf(Locale.ROOT, "%.4f %d%n", (System.nanoTime() - start) / 1e9, second.found);
  }

  private void pass(int[] counts) {
    CutDetector detector = new CutDetector(DetectorSettings.defaults(), cut -> found++);
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
