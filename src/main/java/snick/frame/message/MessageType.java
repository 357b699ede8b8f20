package snick.frame.message;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * Every type of message of the wire protocol, version 1, declared once: readers, writers and checks
 * go by this list; firmware-protocol.md and the firmware's {@code wire.h} are held to it by a test.
 */
public enum MessageType {
  /** A later version may put more behind its firmware text. */
  HELLO(0x01, Wire.HELLO_HEADER_BYTES, Wire.MAX_DECODED_BYTES - Wire.CRC_BYTES),
  SAMPLES(
      0x02,
      Wire.SAMPLES_HEADER_BYTES + Wire.COUNT_BYTES,
      Wire.SAMPLES_HEADER_BYTES + SampleBatch.MAX_SAMPLES * Wire.COUNT_BYTES),
  STATUS(0x03, 19, 19),
  ANSWER(0x04, 12, 12),
  ASK_HELLO(0x81, "value", 0),
  START(0x82, "value", 0),
  STOP(0x83, "value", 0),
  SET_RATE(0x84, "rate in mHz", Integer.BYTES),
  SET_GAIN(0x85, "gain", Short.BYTES),
  PING(0x86, "token", Integer.BYTES);

  /** First type that belongs to the host. */
  public static final int FIRST_OF_HOST = 0x80;

  private static final List<Optional<MessageType>> BY_CODE =
      IntStream.rangeClosed(0, 0xFF).mapToObj(MessageType::find).toList();

  private final int code;
  private final int smallestBytes;
  private final int largestBytes;
  private final String value;

  /** What a device sends, of so many bytes, the type included and the CRC not. */
  MessageType(int code, int smallestBytes, int largestBytes) {
    this.code = code;
    this.smallestBytes = smallestBytes;
    this.largestBytes = largestBytes;
    this.value = "";
  }

  /** A command: type, tag, and a value of so many bytes. */
  MessageType(int code, String value, int valueBytes) {
    this.code = code;
    this.smallestBytes = Wire.TAG_ONLY_BYTES + valueBytes;
    this.largestBytes = smallestBytes;
    this.value = value;
  }

  private static Optional<MessageType> find(int code) {
    return Arrays.stream(values()).filter(type -> type.code == code).findFirst();
  }

  /** The type of this byte, 0 to 255; empty if this version knows none. */
  public static Optional<MessageType> ofCode(int code) {
    return BY_CODE.get(code);
  }

  /** The byte that stands for it on the wire. */
  public int code() {
    return code;
  }

  /** Whether a device sends it; else the host does. */
  public boolean fromDevice() {
    return code < FIRST_OF_HOST;
  }

  /** Whether so many bytes, the type included and the CRC not, can be one. */
  public boolean fits(int bytes) {
    return bytes >= smallestBytes && bytes <= largestBytes;
  }

  /** Bytes of a command's value, unsigned. */
  public int valueBytes() {
    return smallestBytes - Wire.TAG_ONLY_BYTES;
  }

  /** What a command's value is called. */
  String value() {
    return value;
  }
}
