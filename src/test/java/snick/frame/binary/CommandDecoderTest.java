package snick.frame.binary;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.LongRange;
import org.junit.jupiter.api.Test;
import snick.frame.Bytes;
import snick.frame.ReceivedCommands;
import snick.frame.message.Answer;
import snick.frame.message.CommandSink;
import snick.frame.message.HostCommand;
import snick.frame.message.MessageType;

class CommandDecoderTest {
  private final List<String> calls = new ArrayList<>();
  private final CommandDecoder decoder = new CommandDecoder();
  private final CommandSink sink =
      new CommandSink() {
        @Override
        public void command(HostCommand command) {
          calls.add(command.toString());
        }

        @Override
        public void refused(int type, int tag, Answer.Result reason) {
          calls.add(reason + " " + Integer.toHexString(type) + " " + tag);
        }
      };

  private void accept(byte[]... parts) {
    byte[] all = Bytes.join(parts);
    decoder.accept(all, 0, all.length, sink);
  }

  private static byte[] wire(HostCommand command) {
    return new HostFrames().encode(command);
  }

  @Property(tries = 200)
  void everyCommandRoundTripsAtEverySplit(
      @ForAll @IntRange(max = 255) int tag,
      @ForAll @LongRange(max = 0xFFFFFFFFL) long wide,
      @ForAll @IntRange(max = 0xFFFF) int narrow) {
    List<HostCommand> commands =
        List.of(
            new HostCommand(MessageType.ASK_HELLO, tag, 0),
            new HostCommand(MessageType.START, tag, 0),
            new HostCommand(MessageType.STOP, tag, 0),
            new HostCommand(MessageType.SET_RATE, tag, wide),
            new HostCommand(MessageType.SET_GAIN, tag, narrow),
            new HostCommand(MessageType.PING, tag, wide));
    byte[] stream = Bytes.join(commands.stream().map(CommandDecoderTest::wire).toList());
    for (int chunk = 1; chunk <= stream.length; chunk++) {
      List<HostCommand> received = new ArrayList<>();
      CommandDecoder each = new CommandDecoder();
      for (int at = 0; at < stream.length; at += chunk) {
        int length = Math.min(chunk, stream.length - at);
        each.accept(stream, at, length, ReceivedCommands.into(received));
      }
      assertThat(received).isEqualTo(commands);
    }
  }

  @Test
  void noCommandIsLongerThanSaid() {
    byte[] longest = wire(new HostCommand(MessageType.PING, 255, 0xFFFFFFFFL));
    assertThat(longest).hasSize(HostFrames.MAX_BYTES);
  }

  @Test
  void typeByteIsTheOneOfTheFrame() {
    HostCommand gain = new HostCommand(MessageType.SET_GAIN, 1, 128);
    assertThat(gain.type().code()).isEqualTo(0x85);
    assertThat(wire(gain)[2] & 0xFF).isEqualTo(0x85);
  }

  @Test
  void unknownAndMalformedCommandsAreRefusedWithTheirTag() {
    accept(Bytes.frame(0x87, (byte) 9), Bytes.frame(0x80), Bytes.frame(0x84, (byte) 7, (byte) 1));
    accept(Bytes.frame(0x82), Bytes.frame(0x81, (byte) 5, (byte) 0));
    assertThat(calls)
        .containsExactly(
            "UNKNOWN_COMMAND 87 9",
            "UNKNOWN_COMMAND 80 0",
            "MALFORMED 84 7",
            "MALFORMED 82 0",
            "MALFORMED 81 5");
  }

  @Test
  void garbageEchoAndFloodAreDroppedAndTheNextCommandIsHeard() {
    byte[] flood = new byte[5000];
    Arrays.fill(flood, (byte) 0xFF);
    accept(
        Bytes.hello(Bytes.HELLO),
        flood,
        wire(new HostCommand(MessageType.STOP, 4, 0)),
        new byte[100]);
    byte[] damaged = wire(new HostCommand(MessageType.START, 1, 0));
    damaged[3] ^= 2;
    accept(damaged, wire(new HostCommand(MessageType.PING, 5, 6)));
    assertThat(calls)
        .containsExactly(
            new HostCommand(MessageType.STOP, 4, 0).toString(),
            new HostCommand(MessageType.PING, 5, 6).toString());
    assertThat(decoder.droppedFrames()).isEqualTo(3);
  }

  /** A million random bytes: only the CRC's odds may let a frame through; the rest is dropped. */
  @Test
  void randomBytesGiveHardlyAnyCall() {
    SplittableRandom random = new SplittableRandom(7);
    byte[] noise = new byte[1_000_000];
    random.nextBytes(noise);
    accept(noise, wire(new HostCommand(MessageType.STOP, 4, 0)));
    assertThat(calls).endsWith(new HostCommand(MessageType.STOP, 4, 0).toString());
    assertThat(calls).hasSizeLessThan(5);
    assertThat(decoder.droppedFrames()).isGreaterThan(3000);
  }
}
