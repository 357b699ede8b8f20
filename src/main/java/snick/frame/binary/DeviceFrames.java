package snick.frame.binary;

import java.nio.charset.StandardCharsets;
import java.util.Objects;
import snick.frame.message.Answer;
import snick.frame.message.Hello;
import snick.frame.message.Limits;
import snick.frame.message.MessageType;
import snick.frame.message.SampleBatch;
import snick.frame.message.Status;
import snick.frame.message.Wire;

/**
 * Writes what a device sends: frames with their delimiter, into the caller's array. Each method
 * returns the number of bytes written, at most {@link #MAX_BYTES}. Samples are written without
 * allocation. Not for several threads.
 *
 * <p>A device sends one {@link #DELIMITER} before its first frame after reset.
 */
public final class DeviceFrames {
  /** Most bytes that one frame takes, delimiter included. */
  public static final int MAX_BYTES = Wire.MAX_ENCODED_BYTES + 1;

  /** The byte between frames. */
  public static final byte DELIMITER = Wire.DELIMITER;

  /** Version of the protocol written here. */
  public static final int PROTOCOL_VERSION = 1;

  private final FrameWriter writer = new FrameWriter();

  /**
   * Write hello.
   *
   * @throws IllegalArgumentException if the firmware text takes more than 32 bytes of UTF-8
   */
  public int hello(Hello hello, byte[] to, int offset) {
    byte[] firmware = hello.firmware().getBytes(StandardCharsets.UTF_8);
    Limits.check("bytes of firmware text", firmware.length, 0, Wire.MAX_FIRMWARE_BYTES);
    return writer
        .begin(MessageType.HELLO.code())
        .u8(hello.protocolVersion())
        .u64(hello.deviceId())
        .u8(hello.converterBits())
        .u16(hello.gain())
        .u32(hello.nominalRateMilliHertz())
        .u32(hello.inputRangeNanoVolts())
        .u8(firmware.length)
        .bytes(firmware)
        .finish(to, offset);
  }

  /**
   * Write a batch of samples.
   *
   * @param sequence number of the first sample, 32 bits unsigned
   * @param firstMicros device clock when the first sample was ready, µs, 32 bits unsigned
   * @param spanMicros device time from the first sample to the last, µs, 32 bits unsigned; 0 if and
   *     only if there is one sample
   * @param counts readings, each −2^23 to 2^23 − 1
   * @param from index of the first reading
   * @param n number of readings, 1 to 64
   * @throws IllegalArgumentException if a value is outside its range
   */
  public int samples(
      long sequence,
      long firstMicros,
      long spanMicros,
      int[] counts,
      int from,
      int n,
      byte[] to,
      int offset) {
    Objects.checkFromIndexSize(from, n, counts.length);
    Limits.check("batch size", n, 1, SampleBatch.MAX_SAMPLES);
    Limits.check("sequence number", sequence, 0, Limits.MAX_U32);
    Limits.check("first sample's clock in µs", firstMicros, 0, Limits.MAX_U32);
    Limits.check("span in µs", spanMicros, n == 1 ? 0 : 1, n == 1 ? 0 : Limits.MAX_U32);
    writer.begin(MessageType.SAMPLES.code()).u32(sequence).u32(firstMicros).u32(spanMicros).u8(n);
    for (int i = from; i < from + n; i++) {
      Limits.check("count", counts[i], Wire.LOWEST_COUNT, Wire.HIGHEST_COUNT);
      writer.i24(counts[i]);
    }
    return writer.finish(to, offset);
  }

  /** Write status. */
  public int status(Status status, byte[] to, int offset) {
    return writer
        .begin(MessageType.STATUS.code())
        .u32(status.deviceMicros())
        .u16(status.temperatureCentiCelsius().orElse(Wire.NO_TEMPERATURE))
        .u16(status.supplyMilliVolts().orElse(Wire.NO_SUPPLY))
        .u32(status.droppedSamples())
        .u32(status.overrangeSamples())
        .u8(status.resetCause().code())
        .u8(status.state().code())
        .finish(to, offset);
  }

  /** Write the answer to a command. */
  public int answer(Answer answer, byte[] to, int offset) {
    return writer
        .begin(MessageType.ANSWER.code())
        .u8(answer.command())
        .u8(answer.tag())
        .u8(answer.result().code())
        .u32(answer.value())
        .u32(answer.deviceMicros())
        .finish(to, offset);
  }
}
