package snick.frame.binary;

import java.util.OptionalInt;
import java.util.stream.IntStream;
import snick.frame.message.Wire;

/**
 * Consistent Overhead Byte Stuffing (Cheshire and Baker, IEEE/ACM Transactions on Networking 7,
 * 1999, 159–172): a message without zero bytes, at most one byte in 254 longer.
 */
public final class Cobs {
  private static final int LONGEST_RUN = 254;

  /** Made once, so that a frame costs no object. */
  private static final OptionalInt[] LENGTHS =
      IntStream.rangeClosed(0, Wire.MAX_DECODED_BYTES)
          .mapToObj(OptionalInt::of)
          .toArray(OptionalInt[]::new);

  private Cobs() {}

  /** Encode; returns the number of bytes written. The arrays must not be the same. */
  static int encode(byte[] from, int offset, int length, byte[] to, int toOffset) {
    int codeAt = toOffset;
    int out = toOffset + 1;
    int code = 1;
    int end = offset + length;
    for (int i = offset; i < end; i++) {
      if (from[i] != 0) {
        to[out++] = from[i];
        code++;
      }
      boolean fullRun = code == LONGEST_RUN + 1;
      if (from[i] == 0 || (fullRun && i + 1 < end)) {
        to[codeAt] = (byte) code;
        codeAt = out++;
        code = 1;
      }
    }
    to[codeAt] = (byte) code;
    return out - toOffset;
  }

  /**
   * Decode one message without its delimiter, which must hold no zero byte. Each code byte stands
   * where a zero was, but the first and those after full runs: the bytes are copied as they are,
   * then zeros put in.
   *
   * @return number of bytes written; empty if a code points past the end
   */
  public static OptionalInt decode(byte[] from, int offset, int length, byte[] to) {
    int dropped = 0;
    int next = 0;
    boolean full = true;
    while (next < length) {
      if (full) {
        dropped++;
        System.arraycopy(from, offset + next + 1, to, next + 1 - dropped, length - next - 1);
      } else {
        to[next - dropped] = 0;
      }
      int code = from[offset + next] & 0xFF;
      next += code;
      full = code > LONGEST_RUN;
      if (code == 0 || next > length) {
        return OptionalInt.empty();
      }
    }
    int out = length - dropped;
    return out < LENGTHS.length ? LENGTHS[out] : OptionalInt.of(out);
  }
}
