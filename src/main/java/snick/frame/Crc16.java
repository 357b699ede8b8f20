package snick.frame;

/**
 * CRC-16/IBM-3740: polynomial 0x1021, initial value 0xFFFF, not reflected, no final XOR; check
 * value 0x29B1 (CRC catalogue). Table-driven.
 */
final class Crc16 {
  private static final int POLYNOMIAL = 0x1021;
  private static final char[] TABLE = table();

  private Crc16() {}

  private static char[] table() {
    char[] table = new char[256];
    for (int high = 0; high < 256; high++) {
      int rest = high << 8;
      for (int bit = 0; bit < 8; bit++) {
        rest = (rest & 0x8000) == 0 ? rest << 1 : (rest << 1) ^ POLYNOMIAL;
      }
      table[high] = (char) rest;
    }
    return table;
  }

  /** CRC of {@code length} bytes from {@code offset}, 0 to 0xFFFF. */
  static int of(byte[] bytes, int offset, int length) {
    int crc = 0xFFFF;
    for (int i = offset; i < offset + length; i++) {
      crc = ((crc & 0xFF) << 8) ^ TABLE[(crc >> 8) ^ (bytes[i] & 0xFF)];
    }
    return crc;
  }
}
