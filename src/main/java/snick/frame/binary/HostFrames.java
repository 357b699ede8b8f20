package snick.frame.binary;

import java.util.Arrays;
import snick.frame.message.HostCommand;
import snick.frame.message.Wire;

/**
 * Writes what the host sends. A delimiter goes before each command too, so that noise on the line
 * spoils no command. Not for several threads.
 */
public final class HostFrames {
  /** Most bytes that one command takes, both delimiters included. */
  public static final int MAX_BYTES = 11;

  private final FrameWriter writer = new FrameWriter();
  private final byte[] frame = new byte[MAX_BYTES];

  /** The bytes of a command: delimiter, frame, delimiter. */
  public byte[] encode(HostCommand command) {
    writer
        .begin(command.type().code())
        .u8(command.tag())
        .unsigned(command.value(), command.type().valueBytes());
    frame[0] = Wire.DELIMITER;
    int length = 1 + writer.finish(frame, 1);
    byte[] bytes = new byte[length];
    System.arraycopy(frame, 0, bytes, 0, length);
    return bytes;
  }

  /**
   * The bytes of any frame with a good CRC, between delimiters: to try what a device does with
   * frames that no host should send.
   *
   * @param type type byte, 0 to 255
   * @param afterType up to 251 bytes: tag and value, if any
   */
  public byte[] encode(int type, byte... afterType) {
    byte[] bytes = new byte[Wire.MAX_ENCODED_BYTES + 2];
    int length = 1 + writer.begin(type).bytes(afterType).finish(bytes, 1);
    return Arrays.copyOf(bytes, length);
  }
}
