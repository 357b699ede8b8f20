package snick.conformance;

/** The line to a device under trial. One thread. */
public interface Line {
  /** Sends all bytes. */
  void send(byte[] bytes);

  /**
   * Receives what is there; waits about 100 ms at most.
   *
   * @return bytes received into {@code buffer}, from index 0; 0 if none came
   */
  int receive(byte[] buffer);

  /** The host's clock, ns: never goes back. */
  long nanos();
}
