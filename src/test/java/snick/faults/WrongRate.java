package snick.faults;

import java.io.ByteArrayOutputStream;

/**
 * What a receiver at one bit rate makes of bytes sent at another, back to back: start bit 0, eight
 * data bits from the lowest, stop bit 1; each bit is sampled in its middle, and a byte whose stop
 * bit is missing is handed on all the same, as drivers do (own model of a plain receiver).
 */
final class WrongRate {
  private static final int BITS_PER_BYTE = 10;

  private WrongRate() {}

  static byte[] heard(byte[] sent, int sentBitsPerSecond, int heardBitsPerSecond) {
    double step = (double) sentBitsPerSecond / heardBitsPerSecond;
    long bits = (long) sent.length * BITS_PER_BYTE;
    ByteArrayOutputStream heard = new ByteArrayOutputStream();
    double at = 0;
    while (at < bits) {
      if (bit(sent, at)) {
        at += step / 16;
      } else {
        heard.write(character(sent, at, step));
        at += step * (BITS_PER_BYTE - 0.5);
      }
    }
    return heard.toByteArray();
  }

  private static int character(byte[] sent, double start, double step) {
    int character = 0;
    for (int i = 0; i < 8; i++) {
      if (bit(sent, start + step * (i + 1.5))) {
        character |= 1 << i;
      }
    }
    return character;
  }

  /** Level of the line at a time in bits of the sender; 1 at rest. */
  private static boolean bit(byte[] sent, double at) {
    int index = (int) (at / BITS_PER_BYTE);
    int place = (int) (at - (double) index * BITS_PER_BYTE);
    if (index >= sent.length || place == BITS_PER_BYTE - 1) {
      return true;
    }
    return place > 0 && (sent[index] >> (place - 1) & 1) == 1;
  }
}
