package snick.exchange;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;

/**
 * A small zip file written as one of over 4 GiB is (PKWARE, APPNOTE 6.3, 4.3.14, 4.3.15, 4.5.3):
 * every size and place in its directory and end record stands in the 64-bit fields.
 */
final class Zip64 {
  /** Bytes of the two end records and the locator between them. */
  static final int END_BYTES = 56 + 20 + 22;

  private static final int LARGE = -1;

  private Zip64() {}

  static byte[] of(byte[] zip) {
    ByteBuffer in = ByteBuffer.wrap(zip).order(ByteOrder.LITTLE_ENDIAN);
    int end = zip.length - 22;
    int count = in.getShort(end + 10);
    int start = in.getInt(end + 16);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.write(zip, 0, start);
    int position = start;
    for (int i = 0; i < count; i++) {
      int name = in.getShort(position + 28);
      out.writeBytes(entry(in, position, name));
      position += 46 + name + in.getShort(position + 30) + in.getShort(position + 32);
    }
    long directoryBytes = out.size() - (long) start;
    out.writeBytes(endRecords(count, directoryBytes, start));
    return out.toByteArray();
  }

  private static byte[] entry(ByteBuffer in, int position, int name) {
    ByteBuffer entry = ByteBuffer.allocate(46 + name + 28).order(ByteOrder.LITTLE_ENDIAN);
    entry.put(in.slice(position, 46 + name));
    entry.putShort((short) 1).putShort((short) 24);
    entry.putLong(in.getInt(position + 24)).putLong(in.getInt(position + 20));
    entry.putLong(in.getInt(position + 42));
    entry.putInt(20, LARGE).putInt(24, LARGE).putInt(42, LARGE);
    entry.putShort(30, (short) 28).putShort(32, (short) 0);
    return entry.array();
  }

  private static byte[] endRecords(int count, long directoryBytes, long start) {
    ByteBuffer end = ByteBuffer.allocate(END_BYTES).order(ByteOrder.LITTLE_ENDIAN);
    end.putInt(0x06064b50).putLong(44).putShort((short) 45).putShort((short) 45);
    end.putInt(0).putInt(0).putLong(count).putLong(count);
    end.putLong(directoryBytes).putLong(start);
    end.putInt(0x07064b50).putInt(0).putLong(start + directoryBytes).putInt(1);
    end.putInt(0x06054b50).putShort((short) 0).putShort((short) 0);
    end.putShort((short) -1).putShort((short) -1).putInt(LARGE).putInt(LARGE).putShort((short) 0);
    return end.array();
  }
}
