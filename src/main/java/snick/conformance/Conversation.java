package snick.conformance;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import snick.frame.Form;
import snick.frame.StreamDecoder;
import snick.frame.binary.HostFrames;
import snick.frame.message.HostCommand;
import snick.frame.message.MessageType;
import snick.frame.message.Tally;

/** Talks to the device and keeps what was asked and heard. */
final class Conversation {
  static final long MILLI = 1_000_000;
  private static final long ANSWER_WAIT_NANOS = 1_500 * MILLI;
  private static final int BUFFER_BYTES = 4096;
  private static final int MAX_TAG = 255;

  private final Line line;
  private final StreamDecoder decoder = StreamDecoder.of(Form.BINARY, StreamDecoder.Start.MIDWAY);
  private final Heard heard = new Heard();
  private final HostFrames frames = new HostFrames();
  private final byte[] buffer = new byte[BUFFER_BYTES];
  private final Map<Integer, Integer> asked = new HashMap<>();
  private final List<Long> roundTripsNanos = new ArrayList<>();
  private int unanswered;
  private int tag;

  Conversation(Line line) {
    this.line = line;
  }

  Heard heard() {
    return heard;
  }

  /** Host time from each command asked to its answer, ns. */
  List<Long> roundTripsNanos() {
    return roundTripsNanos;
  }

  /** Commands that got no answer. */
  int unanswered() {
    return unanswered;
  }

  Tally tally() {
    return decoder.tally();
  }

  /** Listen for so long, or until there is enough. */
  void listen(long nanos, BooleanSupplier enough) {
    long end = line.nanos() + nanos;
    while (!enough.getAsBoolean() && line.nanos() - end < 0) {
      int bytes = line.receive(buffer);
      heard.at(line.nanos());
      decoder.accept(buffer, 0, bytes, heard);
    }
  }

  void listen(long nanos) {
    listen(nanos, () -> false);
  }

  /** A tag not used before. */
  int freshTag() {
    tag = tag % MAX_TAG + 1;
    return tag;
  }

  /** Send bytes that deserve no answer. */
  void send(byte[] bytes) {
    line.send(bytes);
  }

  /** The bytes of any frame with a good CRC. */
  byte[] frame(int type, byte... afterType) {
    return frames.encode(type, afterType);
  }

  byte[] frame(HostCommand command) {
    return frames.encode(command);
  }

  /** A command with a fresh tag. */
  HostCommand command(MessageType type, long value) {
    return new HostCommand(type, freshTag(), value);
  }

  /** Give a command that takes no value; the answer, if one comes. */
  Reply ask(MessageType type) {
    return ask(type, 0);
  }

  /** Give a command; the answer, if one comes. */
  Reply ask(MessageType type, long value) {
    HostCommand command = command(type, value);
    return ask(frames.encode(command), type.code(), command.tag());
  }

  /** Send bytes that deserve one answer, to this type and tag. */
  Reply ask(byte[] bytes, int type, int expectedTag) {
    int from = heard.size();
    long sentNanos = line.nanos();
    expectAnswer(type, expectedTag);
    line.send(bytes);
    return awaitAnswer(type, expectedTag, from, sentNanos);
  }

  void expectAnswer(int type, int expectedTag) {
    asked.merge(key(type, expectedTag), 1, Integer::sum);
  }

  Reply awaitAnswer(int type, int expectedTag, int from, long sentNanos) {
    listen(ANSWER_WAIT_NANOS, () -> find(type, expectedTag, from) < heard.size());
    int at = find(type, expectedTag, from);
    if (at == heard.size()) {
      unanswered++;
      return new Reply(Optional.empty(), List.of(), sentNanos, ANSWER_WAIT_NANOS);
    }
    Arrival.Answered answered = (Arrival.Answered) heard.since(at).get(0);
    long roundTripNanos = answered.nanos() - sentNanos;
    roundTripsNanos.add(roundTripNanos);
    List<Arrival> before = heard.since(from).subList(0, at - from);
    return new Reply(Optional.of(answered.answer()), before, sentNanos, roundTripNanos);
  }

  long nanos() {
    return line.nanos();
  }

  private int find(int type, int expectedTag, int from) {
    int at = from;
    for (Arrival event : heard.since(from)) {
      if (event instanceof Arrival.Answered answered
          && answered.answer().command() == type
          && answered.answer().tag() == expectedTag) {
        return at;
      }
      at++;
    }
    return at;
  }

  /** Answers that nobody asked for, and second answers. */
  long surplusAnswers() {
    Map<Integer, Integer> answers = new HashMap<>();
    for (Arrival.Answered event : heard.since(0, Arrival.Answered.class)) {
      answers.merge(key(event.answer().command(), event.answer().tag()), 1, Integer::sum);
    }
    return answers.entrySet().stream()
        .mapToInt(e -> Math.max(0, e.getValue() - asked.getOrDefault(e.getKey(), 0)))
        .sum();
  }

  private static int key(int type, int tag) {
    return type << 8 | tag;
  }
}
