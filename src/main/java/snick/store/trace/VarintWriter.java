package snick.store.trace;

import java.util.Arrays;

/** Collects bytes and LEB128 integers (DWARF 5, 7.6). */
final class VarintWriter {
  /** Of 64 bits. */
  private static final int LONGEST_BYTES = 10;

  private byte[] bytes;
  private int length;

  VarintWriter(int expectedBytes) {
    bytes = new byte[expectedBytes];
  }

  void octet(int value) {
    makeRoom();
    bytes[length++] = (byte) value;
  }

  private void makeRoom() {
    if (length + LONGEST_BYTES > bytes.length) {
      bytes = Arrays.copyOf(bytes, 2 * bytes.length + LONGEST_BYTES);
    }
  }

  /** {@code value} as 64 bits unsigned. */
  void unsigned(long value) {
    makeRoom();
    long rest = value;
    while ((rest & ~0x7FL) != 0) {
      bytes[length++] = (byte) (rest | 0x80);
      rest >>>= 7;
    }
    bytes[length++] = (byte) rest;
  }

  /** {@code value} zigzag-coded: small magnitudes of either sign become short. */
  void signed(long value) {
    unsigned((value << 1) ^ (value >> 63));
  }

  /** The 64 bits of a number (IEEE 754), most significant byte first. */
  void real(double value) {
    long bits = Double.doubleToLongBits(value);
    for (int shift = 56; shift >= 0; shift -= 8) {
      octet((int) (bits >>> shift));
    }
  }

  byte[] bytes() {
    return Arrays.copyOf(bytes, length);
  }
}
