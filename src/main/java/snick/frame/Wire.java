package snick.frame;

/** Numbers of the wire protocol, version 1, as firmware-protocol.md gives them. */
final class Wire {
  /** Ends every frame, never inside one. */
  static final byte DELIMITER = 0;

  /** Longest frame before encoding: type, body, CRC. Encoded it takes one byte more. */
  static final int MAX_DECODED_BYTES = 254;

  /** Longest frame on the wire without its delimiter. */
  static final int MAX_ENCODED_BYTES = 255;

  static final int CRC_BYTES = 2;

  static final int HELLO = 0x01;
  static final int SAMPLES = 0x02;
  static final int STATUS = 0x03;
  static final int ANSWER = 0x04;

  static final int ASK_HELLO = 0x81;
  static final int START = 0x82;
  static final int STOP = 0x83;
  static final int SET_RATE = 0x84;
  static final int SET_GAIN = 0x85;
  static final int PING = 0x86;

  /** First type that belongs to the host. */
  static final int FIRST_HOST_TYPE = 0x80;

  static final int SAMPLES_HEADER_BYTES = 14;
  static final int COUNT_BYTES = 3;
  static final int HELLO_HEADER_BYTES = 22;
  static final int MAX_FIRMWARE_BYTES = 32;
  static final int STATUS_BYTES = 19;
  static final int ANSWER_BYTES = 12;
  static final int TAG_ONLY_BYTES = 2;
  static final int SET_RATE_BYTES = 6;
  static final int SET_GAIN_BYTES = 4;
  static final int PING_BYTES = 6;

  /** Temperature that means 'not measured'. */
  static final int NO_TEMPERATURE = -32768;

  /** Supply that means 'not measured'. */
  static final int NO_SUPPLY = 0xFFFF;

  static final int LOWEST_COUNT = -(1 << 23);
  static final int HIGHEST_COUNT = (1 << 23) - 1;

  static final long MAX_RATE_MILLI_HERTZ = 100_000_000;

  private Wire() {}

  static int u8(byte[] bytes, int at) {
    return bytes[at] & 0xFF;
  }

  static int u16(byte[] bytes, int at) {
    return (bytes[at] & 0xFF) | ((bytes[at + 1] & 0xFF) << 8);
  }

  static int i24(byte[] bytes, int at) {
    return (bytes[at] & 0xFF) | ((bytes[at + 1] & 0xFF) << 8) | (bytes[at + 2] << 16);
  }

  static long u32(byte[] bytes, int at) {
    return u16(bytes, at) | ((long) u16(bytes, at + 2) << 16);
  }

  static long u64(byte[] bytes, int at) {
    return u32(bytes, at) | (u32(bytes, at + 4) << 32);
  }
}
