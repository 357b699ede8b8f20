package snick.frame;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;

/**
 * Decodes a stream that lies in memory, and copies the same bytes: how near is the decoder to what
 * memory allows? Prints MB/s of decoding and of copying, the best of several passes on one thread.
 * Argument: a file of frames or of text lines.
 */
final class DecodeFile {
  private static final int PASSES = 9;
  private static final int CHUNK_BYTES = 1 << 16;

  private DecodeFile() {}

  public static void main(String[] args) throws IOException {
    byte[] bytes = Files.readAllBytes(Path.of(args[0]));
    byte[] copy = new byte[bytes.length];
    DecoderBench.Sum sink = new DecoderBench.Sum();
    double decoded = 0;
    double copied = 0;
    for (int i = 0; i < PASSES; i++) {
      decoded = Math.max(decoded, megabytesPerSecond(bytes.length, () -> decode(bytes, sink)));
      copied =
          Math.max(
              copied,
              megabytesPerSecond(
                  bytes.length, () -> System.arraycopy(bytes, 0, copy, 0, bytes.length)));
    }
    System.out.printf(Locale.ROOT, "%.0f %.0f%n", decoded, copied);
    if (sink.sum == 0 || copy[bytes.length - 1] != bytes[bytes.length - 1]) {
      throw new IllegalStateException(args[0] + " holds nothing that was decoded");
    }
  }

  private static double megabytesPerSecond(int bytes, Runnable pass) {
    long start = System.nanoTime();
    pass.run();
    return bytes * 1e3 / (System.nanoTime() - start);
  }

  private static void decode(byte[] bytes, DecoderBench.Sum sink) {
    StreamDecoder decoder = StreamDecoder.ofAnyForm(StreamDecoder.Start.AT_BEGINNING);
    for (int at = 0; at < bytes.length; at += CHUNK_BYTES) {
      decoder.accept(bytes, at, Math.min(CHUNK_BYTES, bytes.length - at), sink);
    }
    decoder.end(sink);
  }
}
