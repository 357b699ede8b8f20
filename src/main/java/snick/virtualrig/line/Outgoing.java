package snick.virtualrig.line;

import java.io.IOException;

/** The device's send buffer: takes a frame whole or not at all. For one thread. */
public final class Outgoing {
  private static final int CAPACITY_BYTES = 4096;

  private final byte[] waiting = new byte[CAPACITY_BYTES];
  private int size;

  public boolean hasRoomFor(int length) {
    return size + length <= CAPACITY_BYTES;
  }

  public void add(byte[] bytes, int length) {
    System.arraycopy(bytes, 0, waiting, size, length);
    size += length;
  }

  /** Send what the line takes now. */
  public void flush(Link link) throws IOException {
    int sent = size == 0 ? 0 : link.write(waiting, size);
    size -= sent;
    System.arraycopy(waiting, sent, waiting, 0, size);
  }

  public void clear() {
    size = 0;
  }
}
