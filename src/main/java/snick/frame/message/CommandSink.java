package snick.frame.message;

/** Takes the commands that a device receives, in order, from one thread. */
public interface CommandSink {
  /** A well-formed command. */
  void command(HostCommand command);

  /**
   * A frame with a good CRC that is no command of this version, to be answered with a refusal.
   *
   * @param type its type byte, 0x80 to 0xFF
   * @param tag its tag; 0 if the frame is too short to have one
   * @param reason {@code UNKNOWN_COMMAND} or {@code MALFORMED}
   */
  void refused(int type, int tag, Answer.Result reason);
}
