package snick.frame.binary;

import snick.frame.message.Wire;

/** Builds one frame at a time: type, body, CRC, encoding, delimiter. Not for several threads. */
public final class FrameWriter {
  private final byte[] plain = new byte[Wire.MAX_DECODED_BYTES];
  private int length;

  public FrameWriter begin(int type) {
    length = 0;
    return u8(type);
  }

  FrameWriter u8(int value) {
    plain[length++] = (byte) value;
    return this;
  }

  FrameWriter u16(int value) {
    return u8(value).u8(value >> 8);
  }

  FrameWriter i24(int value) {
    return u16(value).u8(value >> 16);
  }

  FrameWriter u32(long value) {
    return u16((int) value).u16((int) (value >> 16));
  }

  /** So many bytes of a value. */
  FrameWriter unsigned(long value, int bytes) {
    for (int i = 0; i < bytes; i++) {
      u8((int) (value >> (Byte.SIZE * i)));
    }
    return this;
  }

  FrameWriter u64(long value) {
    return u32(value).u32(value >> 32);
  }

  public FrameWriter bytes(byte[] more) {
    System.arraycopy(more, 0, plain, length, more.length);
    length += more.length;
    return this;
  }

  /** Write the frame with its delimiter; returns the number of bytes written. */
  public int finish(byte[] to, int offset) {
    u16(Crc16.of(plain, 0, length));
    int encoded = Cobs.encode(plain, 0, length, to, offset);
    to[offset + encoded] = Wire.DELIMITER;
    return encoded + 1;
  }
}
