package snick.virtualrig.device;

/** Takes whole frames or lines from the firmware. */
public interface Uart {
  /**
   * Send.
   *
   * @param samples samples in these bytes
   * @return whether there was room; if not, the bytes are dropped
   */
  boolean send(byte[] bytes, int length, int samples);
}
