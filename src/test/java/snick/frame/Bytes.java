package snick.frame;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.OptionalInt;
import snick.frame.binary.DeviceFrames;
import snick.frame.binary.FrameWriter;
import snick.frame.message.Answer;
import snick.frame.message.Hello;
import snick.frame.message.Status;

/** Bytes and messages for the tests of this package. All devices and figures are invented. */
public final class Bytes {
  public static final Hello HELLO =
      new Hello(1, 0x00a1b2c3d4e5f607L, "bench 0.3", 24, 128, 80_000, 19_531_250);
  static final Status STATUS =
      new Status(
          4_000_000_000L,
          OptionalInt.of(-525),
          OptionalInt.of(4987),
          3,
          4_294_967_295L,
          Status.ResetCause.WATCHDOG,
          Status.State.STREAMING);
  static final Answer ANSWER =
      new Answer(0x84, 255, Answer.Result.OUT_OF_RANGE, 80_000, 4_294_967_295L);

  private Bytes() {}

  public static byte[] hex(String digits) {
    return HexFormat.of().parseHex(digits.replace(" ", ""));
  }

  public static byte[] text(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  public static byte[] join(List<byte[]> parts) {
    ByteArrayOutputStream all = new ByteArrayOutputStream();
    parts.forEach(all::writeBytes);
    return all.toByteArray();
  }

  public static byte[] join(byte[]... parts) {
    return join(List.of(parts));
  }

  public static byte[] hello(Hello hello) {
    byte[] to = new byte[DeviceFrames.MAX_BYTES];
    return Arrays.copyOf(to, new DeviceFrames().hello(hello, to, 0));
  }

  static byte[] status(Status status) {
    byte[] to = new byte[DeviceFrames.MAX_BYTES];
    return Arrays.copyOf(to, new DeviceFrames().status(status, to, 0));
  }

  static byte[] answer(Answer answer) {
    byte[] to = new byte[DeviceFrames.MAX_BYTES];
    return Arrays.copyOf(to, new DeviceFrames().answer(answer, to, 0));
  }

  static byte[] samples(long sequence, long firstMicros, long spanMicros, int... counts) {
    byte[] to = new byte[DeviceFrames.MAX_BYTES];
    int length =
        new DeviceFrames()
            .samples(sequence, firstMicros, spanMicros, counts, 0, counts.length, to, 0);
    return Arrays.copyOf(to, length);
  }

  /** A frame of any type and body, CRC good. */
  public static byte[] frame(int type, byte... body) {
    FrameWriter writer = new FrameWriter().begin(type).bytes(body);
    byte[] to = new byte[DeviceFrames.MAX_BYTES];
    return Arrays.copyOf(to, writer.finish(to, 0));
  }

  /** What a decoder makes of the bytes, handed over in chunks of a size. */
  static Received decode(StreamDecoder decoder, byte[] bytes, int chunk) {
    Received received = new Received();
    for (int at = 0; at < bytes.length; at += chunk) {
      decoder.accept(bytes, at, Math.min(chunk, bytes.length - at), received);
    }
    return received;
  }
}
