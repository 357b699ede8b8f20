package snick.virtualrig.device;

/**
 * The program on the device: conversions and host bytes in, frames or lines out. Times true, ns.
 */
public interface Firmware {
  /** Power is on, or a reset is over: counters begin anew. */
  void start(DeviceIdentity identity, long nanos);

  /** The converter has a reading. */
  void converted(int counts, long nanos);

  /** A conversion was due and did not come. */
  void missed(long nanos);

  /** Samples that got a number and were left out because the converter had not settled. */
  long leftOut();

  /** The host sent something. */
  void received(byte[] bytes, int length, long nanos);

  /** Bytes of the frame that a reset breaks off, written to the array; their number, maybe 0. */
  int breakOff(byte[] to);
}
