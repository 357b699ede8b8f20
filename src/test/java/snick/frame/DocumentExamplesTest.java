package snick.frame;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import snick.frame.binary.Cobs;
import snick.frame.binary.CommandDecoder;
import snick.frame.binary.HostFrames;
import snick.frame.message.Answer;
import snick.frame.message.Hello;
import snick.frame.message.HostCommand;
import snick.frame.message.MessageType;
import snick.frame.message.Status;
import snick.frame.message.Tally;

/** Every example in firmware-protocol.md, read from the page itself, both ways. */
class DocumentExamplesTest {
  private static final Path PAGE = Path.of("firmware-protocol.md");

  private static List<String> blocks(String kind) {
    Pattern fence = Pattern.compile("```" + kind + "\n(.*?)```", Pattern.DOTALL);
    try {
      return fence
          .matcher(Files.readString(PAGE))
          .results()
          .map((MatchResult match) -> match.group(1))
          .toList();
    } catch (IOException e) {
      throw new AssertionError("cannot read " + PAGE.toAbsolutePath(), e);
    }
  }

  private static Map<String, String> fields(String block) {
    Map<String, String> fields = new LinkedHashMap<>();
    block
        .lines()
        .forEach(line -> fields.put(line.substring(0, line.indexOf(':')), line.split(": ", 2)[1]));
    return fields;
  }

  @TestFactory
  Stream<DynamicTest> frames() {
    return blocks("example").stream()
        .map(DocumentExamplesTest::fields)
        .map(
            fields ->
                DynamicTest.dynamicTest(
                    fields.get("message") + " " + fields.get("wire"), () -> check(fields)));
  }

  @Test
  void everyMessageHasAnExample() {
    assertThat(blocks("example").stream().map(block -> fields(block).get("message")))
        .containsAll(Stream.of(MessageType.values()).map(MessageTypeTest::words).toList())
        .hasSizeGreaterThanOrEqualTo(14);
  }

  private static void check(Map<String, String> fields) {
    byte[] wire = Bytes.hex(fields.get("wire"));
    byte[] plain = new byte[wire.length];
    int length = Cobs.decode(wire, 0, wire.length - 1, plain).orElseThrow();
    assertThat(Arrays.copyOf(plain, length)).isEqualTo(Bytes.hex(fields.get("plain")));
    switch (fields.get("message")) {
      case "hello" -> fromDevice(wire, Bytes.hello(hello(fields)), hello(fields).toString());
      case "samples" -> samples(wire, fields);
      case "status" -> fromDevice(wire, Bytes.status(status(fields)), status(fields).toString());
      case "answer" -> fromDevice(wire, Bytes.answer(answer(fields)), answer(fields).toString());
      default -> command(wire, hostCommand(fields));
    }
  }

  private static void fromDevice(byte[] wire, byte[] encoded, String message) {
    assertThat(encoded).isEqualTo(wire);
    StreamDecoder decoder = StreamDecoder.of(Form.BINARY, StreamDecoder.Start.AT_BEGINNING);
    assertThat(Bytes.decode(decoder, wire, wire.length).calls).containsExactly(message);
    assertThat(decoder.tally().thrownAway().bytes()).isZero();
  }

  private static Hello hello(Map<String, String> fields) {
    return new Hello(
        number(fields, "protocol_version"),
        Long.parseUnsignedLong(fields.get("device_id"), 16),
        fields.get("firmware"),
        number(fields, "converter_bits"),
        number(fields, "gain"),
        number(fields, "nominal_rate_mhz"),
        number(fields, "input_range_nv"));
  }

  private static void samples(byte[] wire, Map<String, String> fields) {
    int[] counts =
        Arrays.stream(fields.get("counts").split(" ")).mapToInt(Integer::parseInt).toArray();
    byte[] encoded =
        Bytes.samples(
            wide(fields, "sequence"), wide(fields, "first_us"), wide(fields, "span_us"), counts);
    fromDevice(
        wire,
        encoded,
        "samples %s %s %s: %s"
            .formatted(
                fields.get("sequence"),
                fields.get("first_us"),
                fields.get("span_us"),
                fields.get("counts")));
  }

  private static Status status(Map<String, String> fields) {
    return new Status(
        wide(fields, "device_us"),
        measured(fields, "temperature_cdeg"),
        measured(fields, "supply_mv"),
        wide(fields, "dropped"),
        wide(fields, "overrange"),
        Status.ResetCause.valueOf(fields.get("reset_cause")),
        Status.State.valueOf(fields.get("state")));
  }

  private static OptionalInt measured(Map<String, String> fields, String name) {
    return fields.get(name).equals("not measured")
        ? OptionalInt.empty()
        : OptionalInt.of(number(fields, name));
  }

  private static Answer answer(Map<String, String> fields) {
    return new Answer(
        Integer.parseInt(fields.get("command"), 16),
        number(fields, "tag"),
        Answer.Result.valueOf(fields.get("result")),
        wide(fields, "value"),
        wide(fields, "device_us"));
  }

  private static HostCommand hostCommand(Map<String, String> fields) {
    int tag = number(fields, "tag");
    return switch (fields.get("message")) {
      case "ask hello" -> new HostCommand(MessageType.ASK_HELLO, tag, 0);
      case "start" -> new HostCommand(MessageType.START, tag, 0);
      case "stop" -> new HostCommand(MessageType.STOP, tag, 0);
      case "set rate" -> new HostCommand(MessageType.SET_RATE, tag, wide(fields, "milli_hertz"));
      case "set gain" -> new HostCommand(MessageType.SET_GAIN, tag, number(fields, "gain"));
      case "ping" -> new HostCommand(MessageType.PING, tag, wide(fields, "token"));
      default -> throw new AssertionError("unknown message in the page: " + fields);
    };
  }

  private static void command(byte[] wire, HostCommand command) {
    assertThat(new HostFrames().encode(command)).isEqualTo(Bytes.join(new byte[] {0}, wire));
    List<HostCommand> received = new ArrayList<>();
    new CommandDecoder().accept(wire, 0, wire.length, ReceivedCommands.into(received));
    assertThat(received).containsExactly(command);
  }

  private static int number(Map<String, String> fields, String name) {
    return Integer.parseInt(fields.get(name));
  }

  private static long wide(Map<String, String> fields, String name) {
    return Long.parseLong(fields.get(name));
  }

  @TestFactory
  Stream<DynamicTest> textLines() {
    return blocks("lines").stream()
        .flatMap(String::lines)
        .map(row -> row.split("=>", 2))
        .map(
            row ->
                DynamicTest.dynamicTest(
                    row[0].strip(), () -> checkLine(row[0].stripTrailing(), row[1].strip())));
  }

  private static void checkLine(String line, String gives) {
    StreamDecoder decoder = StreamDecoder.of(Form.TEXT, StreamDecoder.Start.AT_BEGINNING);
    byte[] bytes = Bytes.text("0\n" + line + "\n");
    List<String> calls = Bytes.decode(decoder, bytes, bytes.length).calls;
    assertThat(calls.get(0)).isEqualTo("reading 0");
    Tally tally = decoder.tally();
    assertThat(tally.thrownAway().malformed() + tally.thrownAway().badChecks())
        .isEqualTo(gives.equals("∅") ? 1 : 0);
    assertThat(calls.stream().skip(1).map(DocumentExamplesTest::asThePageSays).toList())
        .isEqualTo(expected(gives));
  }

  private static List<String> expected(String gives) {
    if (gives.equals("∅") || gives.isEmpty()) {
      return List.of();
    }
    return gives.startsWith("decimals") ? List.of(gives.split(", ", 2)) : List.of(gives);
  }

  private static String asThePageSays(String call) {
    if (!call.startsWith("reading ")) {
      return call;
    }
    String[] words = call.split(" ", -1);
    return words.length == 2 ? words[1] : words[1] + " us, " + words[2];
  }

  @Test
  void sampleLogIsAcceptedWhole() {
    List<String> logs = blocks("log");
    assertThat(logs).isNotEmpty();
    for (String log : logs) {
      StreamDecoder decoder = StreamDecoder.ofAnyForm(StreamDecoder.Start.AT_BEGINNING);
      Received received = Bytes.decode(decoder, Bytes.text(log), 7);
      decoder.end(received);
      assertThat(decoder.tally().thrownAway().bytes()).isZero();
      assertThat(received.calls).hasSameSizeAs(log.lines().toList());
    }
  }
}
