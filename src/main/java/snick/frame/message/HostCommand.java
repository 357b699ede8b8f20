package snick.frame.message;

/**
 * What the host asks of a device.
 *
 * @param type a command
 * @param tag tag that the answer repeats, 0 to 255
 * @param value what its type takes, unsigned: a rate in mHz, a gain, a token; 0 if it takes none
 */
public record HostCommand(MessageType type, int tag, long value) {
  public HostCommand {
    if (type.fromDevice()) {
      throw new IllegalArgumentException(type + " is no command");
    }
    Limits.check("tag", tag, 0, Limits.MAX_U8);
    Limits.check(type.value(), value, 0, (1L << (Byte.SIZE * type.valueBytes())) - 1);
  }
}
