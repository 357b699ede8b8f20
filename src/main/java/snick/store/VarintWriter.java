package snick.store;

import java.util.Arrays;

/** Collects bytes and LEB128 integers (DWARF 5, 7.6). */
final class VarintWriter {
  private byte[] bytes;
  private int length;

  VarintWriter(int expectedBytes) {
    bytes = new byte[expectedBytes];
  }

  void octet(int value) {
    if (length == bytes.length) {
      bytes = Arrays.copyOf(bytes, 2 * bytes.length + 16);
    }
    bytes[length++] = (byte) value;
  }

  /** {@code value} as 64 bits unsigned. */
  void unsigned(long value) {
    long rest = value;
    while ((rest & ~0x7FL) != 0) {
      octet((int) (rest & 0x7F) | 0x80);
      rest >>>= 7;
    }
    octet((int) rest);
  }

  /** {@code value} zigzag-coded: small magnitudes of either sign become short. */
  void signed(long value) {
    unsigned((value << 1) ^ (value >> 63));
  }

  byte[] bytes() {
    return Arrays.copyOf(bytes, length);
  }
}
