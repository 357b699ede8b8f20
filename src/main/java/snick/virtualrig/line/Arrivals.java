package snick.virtualrig.line;

/** Takes the bytes that arrive at the host's end of the line. */
public interface Arrivals {
  /**
   * Bytes arrive.
   *
   * @param nanos true time since the rig's power-on, ns
   * @param bytes valid only during the call, from index 0
   * @param length how many
   */
  void arrive(long nanos, byte[] bytes, int length);
}
