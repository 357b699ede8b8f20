package snick.port;

import java.io.Closeable;
import java.io.IOException;

/** Bytes as they come. Read by one thread; may be closed from another. */
public interface ByteSource extends Closeable {
  /**
   * Reads what is there. A live source waits about 100 ms at most.
   *
   * @return bytes read into {@code buffer}; 0 if nothing came, or if {@link #ended()}
   * @throws LinkLostException if the device or the connection went away
   */
  int read(byte[] buffer) throws IOException;

  /** Whether a finite source has given its last byte. */
  boolean ended();

  /** When the bytes of the last read arrived: monotonic ns of the host, or as recorded. */
  long arrivalNanos();
}
