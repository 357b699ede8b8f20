package snick.frame.binary;

/**
 * CRC-16/IBM-3740: polynomial 0x1021, initial value 0xFFFF, not reflected, no final XOR; check
 * value 0x29B1 (CRC catalogue). Eight bytes a step by eight tables (slicing, Kounavis and Berry
 * 2005, from memory).
 */
final class Crc16 {
  private static final int POLYNOMIAL = 0x1021;
  private static final int SLICES = 8;
  private static final int ENTRIES = 256;

  /** Entry {@code 256·k + b}: what byte b leaves in the register after k more zero bytes. */
  private static final char[] TABLE = table();

  private Crc16() {}

  private static char[] table() {
    char[] table = new char[SLICES * ENTRIES];
    for (int high = 0; high < ENTRIES; high++) {
      int rest = high << 8;
      for (int bit = 0; bit < 8; bit++) {
        rest = (rest & 0x8000) == 0 ? rest << 1 : (rest << 1) ^ POLYNOMIAL;
      }
      table[high] = (char) rest;
    }
    for (int i = ENTRIES; i < table.length; i++) {
      int one = table[i - ENTRIES];
      table[i] = (char) ((one << 8) ^ table[one >> 8]);
    }
    return table;
  }

  /** CRC of {@code length} bytes from {@code offset}, 0 to 0xFFFF. */
  static int of(byte[] bytes, int offset, int length) {
    char[] table = TABLE;
    int crc = 0xFFFF;
    int i = offset;
    int end = offset + length;
    for (; i + SLICES <= end; i += SLICES) {
      crc =
          table[7 * ENTRIES + ((crc >> 8) ^ (bytes[i] & 0xFF))]
              ^ table[6 * ENTRIES + ((crc & 0xFF) ^ (bytes[i + 1] & 0xFF))]
              ^ table[5 * ENTRIES + (bytes[i + 2] & 0xFF)]
              ^ table[4 * ENTRIES + (bytes[i + 3] & 0xFF)]
              ^ table[3 * ENTRIES + (bytes[i + 4] & 0xFF)]
              ^ table[2 * ENTRIES + (bytes[i + 5] & 0xFF)]
              ^ table[ENTRIES + (bytes[i + 6] & 0xFF)]
              ^ table[bytes[i + 7] & 0xFF];
    }
    for (; i < end; i++) {
      crc = ((crc & 0xFF) << 8) ^ table[(crc >> 8) ^ (bytes[i] & 0xFF)];
    }
    return crc;
  }
}
