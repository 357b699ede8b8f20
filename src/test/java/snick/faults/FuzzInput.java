package snick.faults;

import java.util.Arrays;
import java.util.List;

/** Bytes from a fuzzer, taken one after the other; zeros once they are used up. */
final class FuzzInput {
  private final byte[] bytes;
  private int at;

  FuzzInput(byte[] bytes) {
    this.bytes = bytes;
  }

  boolean isEmpty() {
    return at >= bytes.length;
  }

  /** 0 to 255. */
  int u8() {
    return isEmpty() ? 0 : bytes[at++] & 0xFF;
  }

  int u16() {
    return u8() | u8() << 8;
  }

  long u32() {
    return u16() | (long) u16() << 16;
  }

  /** One of {@code choices}. */
  <T> T one(List<T> choices) {
    return choices.get(u8() % choices.size());
  }

  /** The next bytes, as many as are there. */
  byte[] take(int length) {
    int end = Math.min(bytes.length, at + length);
    byte[] part = Arrays.copyOfRange(bytes, Math.min(at, bytes.length), end);
    at = end;
    return part;
  }

  byte[] rest() {
    return take(bytes.length);
  }
}
