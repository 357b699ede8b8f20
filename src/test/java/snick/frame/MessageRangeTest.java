package snick.frame;

import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import snick.frame.message.Answer;
import snick.frame.message.Hello;
import snick.frame.message.HostCommand;
import snick.frame.message.MessageType;
import snick.frame.message.Status;

/** Messages outside what the wire can carry are refused with value and limits, not cut off. */
class MessageRangeTest {
  private static void refused(String message, Runnable making) {
    assertThatIllegalArgumentException().isThrownBy(making::run).withMessage(message);
  }

  @Test
  void hello() {
    refused("protocol version 0 is outside 1 to 255", () -> new Hello(0, 1, "", 24, 1, 1, 0));
    refused("converter bits 25 is outside 8 to 24", () -> new Hello(1, 1, "", 25, 1, 1, 0));
    refused("gain 0 is outside 1 to 65535", () -> new Hello(1, 1, "", 24, 0, 1, 0));
    refused(
        "rate in mHz 100000001 is outside 1 to 100000000",
        () -> new Hello(1, 1, "", 24, 1, 100_000_001, 0));
    refused(
        "input range in nV -1 is outside 0 to 4294967295", () -> new Hello(1, 1, "", 24, 1, 1, -1));
    refused(
        "bytes of firmware text 33 is outside 0 to 32",
        () -> Bytes.hello(new Hello(1, 1, "x".repeat(33), 24, 1, 1, 0)));
  }

  @Test
  void samples() {
    refused("batch size 65 is outside 1 to 64", () -> Bytes.samples(0, 0, 1, new int[65]));
    refused("batch size 0 is outside 1 to 64", () -> Bytes.samples(0, 0, 0));
    refused("span in µs 1 is outside 0 to 0", () -> Bytes.samples(0, 0, 1, 5));
    refused("span in µs 0 is outside 1 to 4294967295", () -> Bytes.samples(0, 0, 0, 5, 6));
    refused(
        "sequence number 4294967296 is outside 0 to 4294967295",
        () -> Bytes.samples(4_294_967_296L, 0, 0, 5));
    refused(
        "count 8388608 is outside -8388608 to 8388607", () -> Bytes.samples(0, 0, 0, 8_388_608));
  }

  @Test
  void statusAndAnswer() {
    refused(
        "temperature in 0.01 °C -32768 is outside -32767 to 32767",
        () ->
            new Status(
                0,
                OptionalInt.of(-32_768),
                OptionalInt.empty(),
                0,
                0,
                Status.ResetCause.UNKNOWN,
                Status.State.IDLE));
    refused(
        "value 4294967296 is outside 0 to 4294967295",
        () -> new Answer(0x86, 0, Answer.Result.ACCEPTED, 4_294_967_296L, 0));
  }

  @Test
  void commands() {
    refused("tag 256 is outside 0 to 255", () -> new HostCommand(MessageType.START, 256, 0));
    refused("gain -1 is outside 0 to 65535", () -> new HostCommand(MessageType.SET_GAIN, 0, -1));
    refused("token -1 is outside 0 to 4294967295", () -> new HostCommand(MessageType.PING, 0, -1));
  }
}
