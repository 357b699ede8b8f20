package snick.port;

import java.io.IOException;

/** A source that can also be written to: a device. */
public interface ByteLink extends ByteSource {
  /**
   * Writes all of {@code bytes}. May be called from another thread than the reader's.
   *
   * @throws LinkLostException if the device or the connection went away
   */
  void write(byte[] bytes) throws IOException;
}
