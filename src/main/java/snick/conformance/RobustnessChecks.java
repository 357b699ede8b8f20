package snick.conformance;

import static snick.conformance.Conversation.MILLI;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import snick.frame.message.Answer;
import snick.frame.message.HostCommand;
import snick.frame.message.MessageType;

/**
 * Commands that a device does not know, damage, garbage, and no pause between commands.
 *
 * @param talk the line to the device
 * @param findings takes what is found
 */
record RobustnessChecks(Conversation talk, Findings findings) {
  private static final long DAMAGE_WAIT_NANOS = 300 * MILLI;
  private static final int GARBAGE_BYTES = 600;
  private static final int LONG_FRAME_BYTES = 400;
  private static final int PIECE_BYTES = 64;
  private static final int BURST = 3;
  private static final int PING_TYPE = MessageType.PING.code();
  private static final int START_TYPE = MessageType.START.code();
  private static final int SET_RATE_TYPE = MessageType.SET_RATE.code();
  private static final int[] UNKNOWN_TYPES = {0x87, 0xB0, 0xEF};

  /** Types of the device's own messages, and one kept for later versions. */
  private static final int[] ECHOES = {0x01, 0x03, 0x04, 0x05};

  void unknownTypes() {
    for (int type : UNKNOWN_TYPES) {
      int tag = talk.freshTag();
      refusedAs(
          Answer.Result.UNKNOWN_COMMAND,
          Condition.UNKNOWN,
          talk.ask(talk.frame(type, (byte) tag), type, tag),
          Integer.toHexString(type));
    }
  }

  void wrongLengths() {
    int tag = talk.freshTag();
    malformed(PING_TYPE, tag, (byte) tag, (byte) 7);
    tag = talk.freshTag();
    malformed(START_TYPE, tag, (byte) tag, (byte) 0);
    malformed(SET_RATE_TYPE, 0);
  }

  private void malformed(int type, int tag, byte... afterType) {
    refusedAs(
        Answer.Result.MALFORMED,
        Condition.MALFORMED,
        talk.ask(talk.frame(type, afterType), type, tag),
        Integer.toHexString(type) + " of " + (afterType.length + 1) + " bytes");
  }

  private void refusedAs(Answer.Result result, Condition condition, Reply reply, String what) {
    findings.judge(condition, reply.says(result, 0), what + ": " + reply.words());
  }

  void damage() {
    int from = talk.heard().size();
    byte[] damaged = talk.frame(talk.command(MessageType.PING, 1));
    int lastOfCrc = damaged.length - 2;
    damaged[lastOfCrc] = (byte) (damaged[lastOfCrc] == 1 ? 2 : damaged[lastOfCrc] ^ 1);
    talk.send(damaged);
    for (int type : ECHOES) {
      talk.send(talk.frame(type, (byte) talk.freshTag(), (byte) 1, (byte) 2));
    }
    talk.listen(DAMAGE_WAIT_NANOS);
    int answers = talk.heard().since(from, Arrival.Answered.class).size();
    findings.judge(Condition.DAMAGE, answers == 0, answers + " answers to 5 frames");
  }

  /** Random bytes with delimiters among them, then a frame without end, then a command. */
  void garbage() {
    SplittableRandom random = new SplittableRandom(1);
    byte[] garbage = new byte[GARBAGE_BYTES + LONG_FRAME_BYTES];
    random.nextBytes(garbage);
    for (int i = GARBAGE_BYTES; i < garbage.length; i++) {
      garbage[i] = garbage[i] == 0 ? 1 : garbage[i];
    }
    for (int at = 0; at < garbage.length; at += PIECE_BYTES) {
      talk.send(Arrays.copyOfRange(garbage, at, Math.min(garbage.length, at + PIECE_BYTES)));
      talk.listen(MILLI);
    }
    Reply reply = talk.ask(MessageType.PING, GARBAGE_BYTES);
    findings.judge(
        Condition.GARBAGE,
        reply.says(Answer.Result.ACCEPTED, GARBAGE_BYTES),
        garbage.length + " bytes, then " + reply.words());
  }

  void burst() {
    List<HostCommand> commands = new ArrayList<>();
    byte[] bytes = new byte[0];
    for (int i = 0; i < BURST; i++) {
      HostCommand command = talk.command(MessageType.PING, i);
      byte[] frame = talk.frame(command);
      int before = bytes.length;
      bytes = Arrays.copyOf(bytes, before + frame.length);
      System.arraycopy(frame, 0, bytes, before, frame.length);
      commands.add(command);
      talk.expectAnswer(PING_TYPE, command.tag());
    }
    int from = talk.heard().size();
    long sentNanos = talk.nanos();
    talk.send(bytes);
    commands.forEach(c -> talk.awaitAnswer(PING_TYPE, c.tag(), from, sentNanos));
    List<Integer> tags =
        talk.heard().since(from, Arrival.Answered.class).stream()
            .map(event -> event.answer().tag())
            .toList();
    findings.judge(
        Condition.BURST,
        tags.equals(commands.stream().map(HostCommand::tag).toList()),
        tags.size() + " answers to " + BURST + " commands");
  }
}
