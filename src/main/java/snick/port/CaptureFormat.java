package snick.port;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.zip.CRC32C;

/**
 * A capture: raw bytes with their arrival times. One header line of text, {@code snick-capture 1}
 * and LF, a second line that says when and where from, then records, little-endian: arrival time
 * (ns since the capture began, 8 bytes), length (1 to 65 536, 4 bytes), CRC-32C of time, length and
 * bytes (RFC 3720, 4 bytes), the bytes. A torn last record is left out by a reader.
 */
final class CaptureFormat {
  static final byte[] MAGIC = "snick-capture 1\n".getBytes(StandardCharsets.US_ASCII);
  static final int RECORD_HEADER_BYTES = 16;
  static final int MOST_RECORD_BYTES = 65_536;
  static final int MOST_HEADER_LINE_BYTES = 1024;

  private CaptureFormat() {}

  /** CRC-32C over time, length and bytes of one record. */
  static int check(long arrivalNanos, byte[] bytes, int length) {
    CRC32C crc = new CRC32C();
    ByteBuffer head = ByteBuffer.allocate(12).order(ByteOrder.LITTLE_ENDIAN);
    head.putLong(arrivalNanos).putInt(length).flip();
    crc.update(head);
    crc.update(bytes, 0, length);
    return (int) crc.getValue();
  }
}
