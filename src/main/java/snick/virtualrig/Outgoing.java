package snick.virtualrig;

import java.io.IOException;

/** The device's send buffer: takes a frame whole or not at all. For one thread. */
final class Outgoing {
  private static final int CAPACITY_BYTES = 4096;

  private final byte[] waiting = new byte[CAPACITY_BYTES];
  private int size;

  boolean hasRoomFor(int length) {
    return size + length <= CAPACITY_BYTES;
  }

  void add(byte[] bytes, int length) {
    System.arraycopy(bytes, 0, waiting, size, length);
    size += length;
  }

  /** Send what the line takes now. */
  void flush(Link link) throws IOException {
    int sent = size == 0 ? 0 : link.write(waiting, size);
    size -= sent;
    System.arraycopy(waiting, sent, waiting, 0, size);
  }

  void clear() {
    size = 0;
  }
}
