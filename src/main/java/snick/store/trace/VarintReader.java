package snick.store.trace;

/** Reads bytes and LEB128 integers (DWARF 5, 7.6); never past the end, never over 64 bits. */
final class VarintReader {
  private final byte[] bytes;
  private int position;

  VarintReader(byte[] bytes) {
    this.bytes = bytes;
  }

  int octet() {
    if (position == bytes.length) {
      throw new MalformedTraceException("trace ends at byte " + position + ", more was announced");
    }
    return bytes[position++] & 0xFF;
  }

  long unsigned() {
    long value = 0;
    for (int shift = 0; shift < 64; shift += 7) {
      int next = octet();
      value |= (long) (next & 0x7F) << shift;
      if (next < 0x80) {
        return value;
      }
    }
    throw new MalformedTraceException("number of over 64 bits before byte " + position);
  }

  long signed() {
    long value = unsigned();
    return (value >>> 1) ^ -(value & 1);
  }

  double real() {
    long bits = 0;
    for (int i = 0; i < Double.BYTES; i++) {
      bits = bits << 8 | octet();
    }
    return Double.longBitsToDouble(bits);
  }

  /** A number of items that take at least {@code leastBytesEach} of the bytes left. */
  int size(int leastBytesEach) {
    long size = unsigned();
    int left = bytes.length - position;
    if (!(size >= 0 && size <= left / leastBytesEach)) {
      throw new MalformedTraceException(
          Long.toUnsignedString(size) + " items announced, " + left + " bytes left");
    }
    return (int) size;
  }

  void end() {
    if (position != bytes.length) {
      throw new MalformedTraceException(
          (bytes.length - position) + " bytes left over after byte " + position);
    }
  }
}
