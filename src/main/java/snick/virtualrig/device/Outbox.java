package snick.virtualrig.device;

import snick.frame.binary.DeviceFrames;
import snick.frame.message.SampleBatch;

/** Samples that wait to fill a frame, numbered since the device's start. */
final class Outbox {
  private static final long MASK_32 = 0xFFFF_FFFFL;

  private final int[] counts = new int[SampleBatch.MAX_SAMPLES];
  private int size;
  private long firstSequence;
  private long firstMicros;
  private long lastMicros;

  /** Number of the next sample, 32 bits unsigned. */
  long nextSequence() {
    return (firstSequence + size) & MASK_32;
  }

  /** Give a number to a sample that is not sent; nothing may be waiting. */
  void skip() {
    firstSequence = (firstSequence + 1) & MASK_32;
  }

  void restart() {
    size = 0;
    firstSequence = 0;
  }

  void add(int reading, long micros) {
    if (size == 0) {
      firstMicros = micros;
    }
    lastMicros = micros;
    counts[size++] = reading;
  }

  int size() {
    return size;
  }

  /** Write one frame with all that waits and forget it; the bytes written. */
  int write(DeviceFrames frames, byte[] to) {
    long spanMicros = (lastMicros - firstMicros) & MASK_32;
    int bytes = frames.samples(firstSequence, firstMicros, spanMicros, counts, 0, size, to, 0);
    firstSequence = (firstSequence + size) & MASK_32;
    size = 0;
    return bytes;
  }
}
