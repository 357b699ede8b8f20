package snick.frame.message;

/** Numbers of the wire protocol, version 1, as firmware-protocol.md gives them. */
public final class Wire {
  /** Ends every frame, never inside one. */
  public static final byte DELIMITER = 0;

  /** Longest frame before encoding: type, body, CRC. Encoded it takes one byte more. */
  public static final int MAX_DECODED_BYTES = 254;

  /** Longest frame on the wire without its delimiter. */
  public static final int MAX_ENCODED_BYTES = 255;

  public static final int CRC_BYTES = 2;

  public static final int SAMPLES_HEADER_BYTES = 14;
  public static final int COUNT_BYTES = 3;
  public static final int HELLO_HEADER_BYTES = 22;
  public static final int MAX_FIRMWARE_BYTES = 32;
  public static final int TAG_ONLY_BYTES = 2;

  /** Temperature that means 'not measured'. */
  public static final int NO_TEMPERATURE = -32768;

  /** Supply that means 'not measured'. */
  public static final int NO_SUPPLY = 0xFFFF;

  public static final int LOWEST_COUNT = -(1 << 23);
  public static final int HIGHEST_COUNT = (1 << 23) - 1;

  public static final long MAX_RATE_MILLI_HERTZ = 100_000_000;

  private Wire() {}

  public static int u8(byte[] bytes, int at) {
    return bytes[at] & 0xFF;
  }

  public static int u16(byte[] bytes, int at) {
    return (bytes[at] & 0xFF) | ((bytes[at + 1] & 0xFF) << 8);
  }

  public static int i24(byte[] bytes, int at) {
    return (bytes[at] & 0xFF) | ((bytes[at + 1] & 0xFF) << 8) | (bytes[at + 2] << 16);
  }

  public static long u32(byte[] bytes, int at) {
    return u16(bytes, at) | ((long) u16(bytes, at + 2) << 16);
  }

  /** So many bytes, up to 4, unsigned. */
  public static long unsigned(byte[] bytes, int at, int length) {
    long value = 0;
    for (int i = length - 1; i >= 0; i--) {
      value = (value << Byte.SIZE) | u8(bytes, at + i);
    }
    return value;
  }

  public static long u64(byte[] bytes, int at) {
    return u32(bytes, at) | (u32(bytes, at + 4) << 32);
  }
}
