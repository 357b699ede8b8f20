package snick.port;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Arrays;
import snick.phrase.Phrase;

/**
 * Bytes of a file or of standard input: a capture if it begins like one, plain bytes otherwise.
 * Constant memory.
 */
public final class RecordedSource implements ByteSource {
  private static final int BUFFER_BYTES = 1 << 16;

  private final Buffered in;
  private final boolean capture;
  private final byte[] record = new byte[CaptureFormat.MOST_RECORD_BYTES];
  private final ByteBuffer header =
      ByteBuffer.allocate(CaptureFormat.RECORD_HEADER_BYTES).order(ByteOrder.LITTLE_ENDIAN);
  private int recordPosition;
  private int recordLength;
  private long arrivalNanos;
  private long bytesRead;
  private boolean ended;
  private boolean torn;

  private RecordedSource(Buffered in, boolean capture) {
    this.in = in;
    this.capture = capture;
  }

  /** Opens a file. */
  static RecordedSource open(Path file) throws IOException {
    try {
      return of(Files.newInputStream(file));
    } catch (NoSuchFileException e) {
      throw new PortException(
          PortException.Reason.NOT_FOUND, Phrase.of("port.no_file", "file", file), e);
    }
  }

  /** Reads {@code raw} to its end; closing closes it. */
  public static RecordedSource of(InputStream raw) throws IOException {
    Buffered in = new Buffered(raw);
    in.mark(CaptureFormat.MAGIC.length);
    byte[] start = in.readNBytes(CaptureFormat.MAGIC.length);
    if (Arrays.equals(start, CaptureFormat.MAGIC)) {
      skipHeaderLine(in);
      return new RecordedSource(in, true);
    }
    in.reset();
    return new RecordedSource(in, false);
  }

  private static void skipHeaderLine(InputStream in) throws IOException {
    for (int i = 0; i < CaptureFormat.MOST_HEADER_LINE_BYTES; i++) {
      int next = in.read();
      if (next < 0 || next == '\n') {
        return;
      }
    }
    throw new IOException(
        "capture header line is longer than " + CaptureFormat.MOST_HEADER_LINE_BYTES + " bytes");
  }

  @Override
  public int read(byte[] buffer) throws IOException {
    return capture ? readRecord(buffer) : readPlain(buffer);
  }

  private int readPlain(byte[] buffer) throws IOException {
    int count = in.read(buffer);
    if (count < 0) {
      ended = true;
      return 0;
    }
    bytesRead += count;
    return count;
  }

  private int readRecord(byte[] buffer) throws IOException {
    if (recordPosition == recordLength && !nextRecord()) {
      ended = true;
      return 0;
    }
    int count = Math.min(buffer.length, recordLength - recordPosition);
    System.arraycopy(record, recordPosition, buffer, 0, count);
    recordPosition += count;
    return count;
  }

  private boolean nextRecord() throws IOException {
    byte[] head = header.array();
    int got = in.readNBytes(head, 0, head.length);
    if (got < head.length) {
      torn = got > 0;
      return false;
    }
    int length = header.getInt(8);
    if (length < 1 || length > CaptureFormat.MOST_RECORD_BYTES) {
      torn = true;
      return false;
    }
    if (in.readNBytes(record, 0, length) < length
        || header.getInt(12) != CaptureFormat.check(header.getLong(0), record, length)) {
      torn = true;
      return false;
    }
    arrivalNanos = header.getLong(0);
    recordPosition = 0;
    recordLength = length;
    bytesRead += head.length + length;
    return true;
  }

  /** Whether nothing more is there at the moment: the next read may wait. */
  public boolean paused() throws IOException {
    return in.empty() && in.available() == 0;
  }

  @Override
  public boolean ended() {
    return ended;
  }

  @Override
  public long arrivalNanos() {
    return arrivalNanos;
  }

  /** Whether the capture's last record was incomplete or damaged, so that reading stopped there. */
  public boolean torn() {
    return torn;
  }

  /** Bytes of the file read so far, for progress. */
  public long bytesRead() {
    return bytesRead;
  }

  @Override
  public void close() throws IOException {
    in.close();
  }

  /** Knows without asking the system whether bytes are left in it. */
  private static final class Buffered extends BufferedInputStream {
    Buffered(InputStream raw) {
      super(raw, BUFFER_BYTES);
    }

    synchronized boolean empty() {
      return pos >= count;
    }
  }
}
