package snick.faults;

import java.io.ByteArrayOutputStream;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalInt;
import snick.frame.binary.DeviceFrames;
import snick.frame.message.Answer;
import snick.frame.message.Hello;
import snick.frame.message.SampleBatch;
import snick.frame.message.Status;

/**
 * A device that a fuzzer drives: each byte of the input is an act, its figures follow. Checksums
 * are right where an act is a frame, so that what lies behind the checksum is reached.
 */
final class HostileDevice {
  private static final int MOST_RAMP_FRAMES = 24;
  private static final int RAMP_BATCH = 8;
  private static final long U32 = 0xFFFF_FFFFL;
  private static final int LOWEST = -(1 << 23);
  private static final int HIGHEST = (1 << 23) - 1;

  private final FuzzInput input;
  private final DeviceFrames frames = new DeviceFrames();
  private final byte[] frame = new byte[DeviceFrames.MAX_BYTES];
  private final ByteArrayOutputStream sent = new ByteArrayOutputStream();
  private long sequence;
  private long micros;
  private int level;

  private HostileDevice(FuzzInput input) {
    this.input = input;
    sent.write(DeviceFrames.DELIMITER);
  }

  /** All that the device sends. */
  static byte[] sends(byte[] script) {
    HostileDevice device = new HostileDevice(new FuzzInput(script));
    while (!device.input.isEmpty()) {
      device.act();
    }
    return device.sent.toByteArray();
  }

  private void act() {
    switch (input.u8() % 9) {
      case 0 -> sent.writeBytes(input.take(input.u8()));
      case 1 -> hello();
      case 2 -> batch();
      case 3 -> ramp();
      case 4 -> status();
      case 5 -> answer();
      case 6 -> sequence = (sequence + input.u32()) & U32;
      case 7 -> micros = input.u32();
      default -> level = clipped(input.u16() << 8 | input.u8());
    }
  }

  private static int clipped(long counts) {
    return (int) Math.max(LOWEST, Math.min(HIGHEST, counts));
  }

  private void send(int length) {
    sent.write(frame, 0, length);
  }

  private void hello() {
    Hello hello =
        new Hello(
            1 + input.u8() % 3,
            input.u8(),
            Arrays.toString(input.take(3)),
            8 + input.u8() % 17,
            1 + input.u8(),
            1 + input.u32() % 100_000_000,
            input.u32());
    send(frames.hello(hello, frame, 0));
  }

  private void batch() {
    int[] counts = new int[1 + input.u8() % SampleBatch.MAX_SAMPLES];
    for (int i = 0; i < counts.length; i++) {
      counts[i] = (short) input.u16() << (input.u8() % 9);
    }
    long spanMicros = counts.length == 1 ? 0 : 1 + input.u32();
    emit(counts, Math.min(U32, spanMicros));
  }

  private void emit(int[] counts, long spanMicros) {
    send(frames.samples(sequence, micros, spanMicros, counts, 0, counts.length, frame, 0));
    sequence = (sequence + counts.length) & U32;
    micros = (micros + spanMicros + spanMicros / Math.max(1, counts.length - 1)) & U32;
  }

  /** Rest, rise or fall in a straight line with a little noise. */
  private void ramp() {
    int batches = 1 + input.u8() % MOST_RAMP_FRAMES;
    int slope = (short) input.u16();
    int noise = 1 + input.u8() % 64;
    long periodMicros = 1L + input.u16();
    for (int b = 0; b < batches; b++) {
      int[] counts = new int[RAMP_BATCH];
      for (int i = 0; i < RAMP_BATCH; i++) {
        level = clipped((long) level + slope);
        counts[i] = clipped(level + (long) (level * 31 + i * 17) % noise);
      }
      emit(counts, periodMicros * (RAMP_BATCH - 1));
    }
  }

  private void status() {
    Status status =
        new Status(
            input.u32(),
            OptionalInt.of((short) input.u16() / 2),
            OptionalInt.empty(),
            input.u32(),
            input.u32(),
            input.one(List.of(Status.ResetCause.values())),
            input.one(List.of(Status.State.values())));
    send(frames.status(status, frame, 0));
  }

  private void answer() {
    Answer answer =
        new Answer(
            input.u8(),
            input.u8(),
            input.one(List.of(Answer.Result.values())),
            input.u32(),
            input.u32());
    send(frames.answer(answer, frame, 0));
  }
}
