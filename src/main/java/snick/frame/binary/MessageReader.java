package snick.frame.binary;

import java.util.Optional;
import java.util.OptionalInt;
import snick.frame.message.Answer;
import snick.frame.message.Counters;
import snick.frame.message.FrameSink;
import snick.frame.message.Hello;
import snick.frame.message.MessageType;
import snick.frame.message.SampleBatch;
import snick.frame.message.Status;
import snick.frame.message.UntrustedText;
import snick.frame.message.Wire;

/** Reads the body of a checked frame and hands the message on. One batch object is used again. */
final class MessageReader {
  /** What became of a frame. */
  enum Outcome {
    HANDED_ON,
    UNKNOWN_TYPE,
    MALFORMED
  }

  private final SampleBatch batch = new SampleBatch();
  private final Counters counters;

  MessageReader(Counters counters) {
    this.counters = counters;
  }

  /**
   * Read a message.
   *
   * @param plain type and body
   * @param length their length, at least 1
   */
  Outcome read(byte[] plain, int length, FrameSink sink) {
    Optional<MessageType> type =
        MessageType.ofCode(Wire.u8(plain, 0)).filter(MessageType::fromDevice);
    if (type.isEmpty()) {
      return Outcome.UNKNOWN_TYPE;
    }
    boolean whole = type.get().fits(length) && handOn(type.get(), plain, length, sink);
    return whole ? Outcome.HANDED_ON : Outcome.MALFORMED;
  }

  private boolean handOn(MessageType type, byte[] plain, int length, FrameSink sink) {
    return switch (type) {
      case HELLO -> hello(plain, length, sink);
      case SAMPLES -> samples(plain, length, sink);
      case STATUS -> status(plain, sink);
      case ANSWER -> answer(plain, sink);
      case ASK_HELLO, START, STOP, SET_RATE, SET_GAIN, PING -> false;
    };
  }

  private boolean samples(byte[] plain, int length, FrameSink sink) {
    int n = Wire.u8(plain, 13);
    long spanMicros = Wire.u32(plain, 9);
    if (n < 1
        || n > SampleBatch.MAX_SAMPLES
        || length != Wire.SAMPLES_HEADER_BYTES + n * Wire.COUNT_BYTES
        || (n == 1) != (spanMicros == 0)) {
      return false;
    }
    batch.begin(Wire.u32(plain, 1), Wire.u32(plain, 5), spanMicros);
    for (int at = Wire.SAMPLES_HEADER_BYTES; at < length; at += Wire.COUNT_BYTES) {
      batch.add(Wire.i24(plain, at));
    }
    counters.samples += n;
    sink.samples(batch);
    return true;
  }

  private static boolean hello(byte[] plain, int length, FrameSink sink) {
    int version = Wire.u8(plain, 1);
    int firmwareBytes = Wire.u8(plain, 21);
    int expected = Wire.HELLO_HEADER_BYTES + firmwareBytes;
    boolean lengthFits =
        version > DeviceFrames.PROTOCOL_VERSION ? length >= expected : length == expected;
    int bits = Wire.u8(plain, 10);
    int gain = Wire.u16(plain, 11);
    long rate = Wire.u32(plain, 13);
    if (version < 1
        || firmwareBytes > Wire.MAX_FIRMWARE_BYTES
        || !lengthFits
        || bits < 8
        || bits > 24
        || gain < 1
        || rate < 1
        || rate > Wire.MAX_RATE_MILLI_HERTZ) {
      return false;
    }
    sink.hello(
        new Hello(
            version,
            Wire.u64(plain, 2),
            UntrustedText.of(plain, Wire.HELLO_HEADER_BYTES, firmwareBytes),
            bits,
            gain,
            rate,
            Wire.u32(plain, 17)));
    return true;
  }

  private static boolean status(byte[] plain, FrameSink sink) {
    Optional<Status.ResetCause> cause = Status.ResetCause.ofCode(Wire.u8(plain, 17));
    Optional<Status.State> state = Status.State.ofCode(Wire.u8(plain, 18));
    if (cause.isEmpty() || state.isEmpty()) {
      return false;
    }
    sink.status(
        new Status(
            Wire.u32(plain, 1),
            unless(Wire.NO_TEMPERATURE, (short) Wire.u16(plain, 5)),
            unless(Wire.NO_SUPPLY, Wire.u16(plain, 7)),
            Wire.u32(plain, 9),
            Wire.u32(plain, 13),
            cause.get(),
            state.get()));
    return true;
  }

  private static OptionalInt unless(int notMeasured, int value) {
    return value == notMeasured ? OptionalInt.empty() : OptionalInt.of(value);
  }

  private static boolean answer(byte[] plain, FrameSink sink) {
    Optional<Answer.Result> result = Answer.Result.ofCode(Wire.u8(plain, 3));
    if (result.isEmpty()) {
      return false;
    }
    sink.answer(
        new Answer(
            Wire.u8(plain, 1),
            Wire.u8(plain, 2),
            result.get(),
            Wire.u32(plain, 4),
            Wire.u32(plain, 8)));
    return true;
  }
}
