package snick.frame;

/** What the host asks of a device. Each carries a tag, 0 to 255, that the answer repeats. */
public sealed interface HostCommand {
  /** Tag that the answer repeats, 0 to 255. */
  int tag();

  /** Ask for hello. The device sends hello, then its answer. */
  record AskHello(int tag) implements HostCommand {}

  /** Begin to send samples. */
  record Start(int tag) implements HostCommand {}

  /** Stop sending samples. */
  record Stop(int tag) implements HostCommand {}

  /**
   * Set the output rate.
   *
   * @param milliHertz mHz, 1 to 100 000 000
   */
  record SetRate(int tag, long milliHertz) implements HostCommand {}

  /**
   * Set the amplifier's gain.
   *
   * @param gain 1 to 65535
   */
  record SetGain(int tag, int gain) implements HostCommand {}

  /**
   * Ask for the token back with the device's clock.
   *
   * @param token any 32 bits, unsigned
   */
  record Ping(int tag, long token) implements HostCommand {}
}
