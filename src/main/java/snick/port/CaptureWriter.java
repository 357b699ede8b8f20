package snick.port;

import java.io.BufferedOutputStream;
import java.io.Closeable;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Instant;

/** Writes a capture, see {@link CaptureFormat}. One thread. */
public final class CaptureWriter implements Closeable {
  private final OutputStream out;
  private final ByteBuffer header =
      ByteBuffer.allocate(CaptureFormat.RECORD_HEADER_BYTES).order(ByteOrder.LITTLE_ENDIAN);

  private CaptureWriter(OutputStream out) {
    this.out = out;
  }

  /**
   * Creates a new file.
   *
   * @param source where the bytes come from, as text
   * @throws java.nio.file.FileAlreadyExistsException if {@code file} is there already
   * @throws IOException if it cannot be written; then there is none
   */
  public static CaptureWriter create(Path file, Instant begin, String source) throws IOException {
    String line = "begin=" + begin + " source=" + source.replaceAll("\\p{Cntrl}", "?");
    String bounded = line.substring(0, Math.min(line.length(), 200));
    OutputStream out =
        new BufferedOutputStream(
            Files.newOutputStream(file, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE));
    try {
      out.write(CaptureFormat.MAGIC);
      out.write((bounded + "\n").getBytes(StandardCharsets.UTF_8));
      out.flush();
      return new CaptureWriter(out);
    } catch (IOException e) {
      takeBack(file, out, e);
      throw e;
    }
  }

  private static void takeBack(Path file, OutputStream out, IOException cause) {
    try (out) {
      Files.delete(file);
    } catch (IOException e) {
      cause.addSuppressed(e);
    }
  }

  /**
   * Appends one record.
   *
   * @param arrivalNanos when the bytes arrived, ns since the capture began
   * @param bytes the bytes, from index 0
   * @param length how many, 1 to 65 536
   */
  public void append(long arrivalNanos, byte[] bytes, int length) throws IOException {
    if (length < 1 || length > CaptureFormat.MOST_RECORD_BYTES) {
      throw new IllegalArgumentException(
          "capture record of " + length + " bytes, 1 to 65536 allowed");
    }
    header.clear();
    header.putLong(arrivalNanos).putInt(length);
    header.putInt(CaptureFormat.check(arrivalNanos, bytes, length));
    out.write(header.array());
    out.write(bytes, 0, length);
  }

  /** Hands everything written so far to the operating system. */
  public void flush() throws IOException {
    out.flush();
  }

  @Override
  public void close() throws IOException {
    out.close();
  }
}
