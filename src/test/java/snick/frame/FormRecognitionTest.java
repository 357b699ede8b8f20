package snick.frame;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import snick.frame.binary.HostFrames;
import snick.frame.message.HostCommand;
import snick.frame.message.MessageType;

class FormRecognitionTest {
  private static final byte[] FRAME = Bytes.samples(7, 1000, 0, 11);
  private static final String FRAME_CALL = "samples 7 1000 0: 11";
  private static final String BOOT_CHATTER =
      "\r\nboot loader 4, reset cause 2\r\nload 0x3fff0008, 1234\r\n17\r\n42\r\n";

  private static StreamDecoder midway() {
    return StreamDecoder.ofAnyForm(StreamDecoder.Start.MIDWAY);
  }

  private static StreamDecoder fromBeginning() {
    return StreamDecoder.ofAnyForm(StreamDecoder.Start.AT_BEGINNING);
  }

  /** What the decoder makes of the bytes, the same for every chunk size, ended if asked for. */
  private static List<String> calls(StreamDecoder.Start start, boolean ended, byte[] bytes) {
    List<String> calls = callsInChunks(start, ended, bytes, bytes.length);
    for (int chunk = 1; chunk < Math.min(bytes.length, 300); chunk++) {
      assertThat(callsInChunks(start, ended, bytes, chunk))
          .as("chunks of %d", chunk)
          .isEqualTo(calls);
    }
    return calls;
  }

  private static List<String> callsInChunks(
      StreamDecoder.Start start, boolean ended, byte[] bytes, int chunk) {
    StreamDecoder decoder = StreamDecoder.ofAnyForm(start);
    Received received = Bytes.decode(decoder, bytes, chunk);
    if (ended) {
      decoder.end(received);
    }
    received.calls.add(decoder.tally().toString());
    return received.calls;
  }

  private static byte[] readings(int from, int to) {
    StringBuilder lines = new StringBuilder();
    for (int i = from; i < to; i++) {
      lines.append(String.format(Locale.ROOT, "%d,%d\n", 12_500 * i, 84_000 + i));
    }
    return Bytes.text(lines.toString());
  }

  private static List<String> readingCalls(int from, int to) {
    List<String> calls = new ArrayList<>();
    for (int i = from; i < to; i++) {
      calls.add("reading " + 12_500 * i + " " + (84_000 + i));
    }
    return calls;
  }

  @Test
  void bootChatterBeforeFramesDoesNoHarm() {
    byte[] stream = Bytes.join(Bytes.text(BOOT_CHATTER), new byte[1], FRAME, FRAME);
    assertThat(calls(StreamDecoder.Start.MIDWAY, false, stream))
        .startsWith(FRAME_CALL, FRAME_CALL)
        .hasSize(3);
  }

  @Test
  void longBootChatterIsTextUntilTheFirstZero() {
    byte[] chatter = Bytes.text("loading the second stage from flash\r\n".repeat(20));
    byte[] stream = Bytes.join(chatter, FRAME, FRAME, FRAME);
    assertThat(calls(StreamDecoder.Start.MIDWAY, false, stream))
        .startsWith(FRAME_CALL, FRAME_CALL)
        .hasSize(3);
  }

  @Test
  void textFollowedByBinaryFollowedByText() {
    byte[] stream = Bytes.join(readings(0, 40), new byte[1], FRAME, FRAME, readings(100, 140));
    List<String> calls = calls(StreamDecoder.Start.AT_BEGINNING, false, stream);
    List<String> expected = readingCalls(0, 40);
    expected.add(FRAME_CALL);
    expected.add(FRAME_CALL);
    expected.addAll(readingCalls(101, 140));
    assertThat(calls.subList(0, calls.size() - 1)).isEqualTo(expected);
  }

  @Test
  void textJoinedMidwayLosesItsFirstLineOnly() {
    byte[] whole = readings(0, 10);
    byte[] tail = Arrays.copyOfRange(whole, 4, whole.length);
    List<String> calls = calls(StreamDecoder.Start.MIDWAY, false, tail);
    assertThat(calls.subList(0, calls.size() - 1)).isEqualTo(readingCalls(1, 10));
  }

  @Test
  void announcementIsHeardEvenAsTheFirstLineMidway() {
    for (Optional<Form> form : List.of(Optional.<Form>empty(), Optional.of(Form.TEXT))) {
      StreamDecoder decoder =
          form.map(given -> StreamDecoder.of(given, StreamDecoder.Start.MIDWAY))
              .orElseGet(FormRecognitionTest::midway);
      Received received = Bytes.decode(decoder, Bytes.text("# rate=80\n5\n"), 1);
      assertThat(received.calls).containsExactly("rate = 80", "reading 5");
    }
  }

  @Test
  void textFromItsBeginningLosesNothing() {
    List<String> calls = calls(StreamDecoder.Start.AT_BEGINNING, false, readings(0, 10));
    assertThat(calls.subList(0, calls.size() - 1)).isEqualTo(readingCalls(0, 10));
  }

  @Test
  void announcementSettlesTextAtOnce() {
    StreamDecoder decoder = fromBeginning();
    Received received = Bytes.decode(decoder, Bytes.text("5\n# rate=80\n"), 1);
    assertThat(received.calls).containsExactly("reading 5", "rate = 80");
    assertThat(decoder.recognised()).contains(Form.TEXT);
  }

  @Test
  void shortLogIsTextAtItsEnd() {
    assertThat(calls(StreamDecoder.Start.AT_BEGINNING, true, Bytes.text("5\n-6\n7")))
        .startsWith("reading 5", "reading -6", "reading 7");
  }

  @Test
  void veryShortReadingsAreTextAfter256Bytes() {
    StreamDecoder decoder = fromBeginning();
    Received received = Bytes.decode(decoder, Bytes.text("7\n".repeat(127)), 1);
    assertThat(decoder.recognised()).isEmpty();
    assertThat(received.calls).isEmpty();
    decoder.accept(Bytes.text("7\n"), 0, 2, received);
    assertThat(decoder.recognised()).contains(Form.TEXT);
    assertThat(received.calls).hasSize(128);
  }

  @Test
  void zeroByteInTextCostsOneLine() {
    byte[] stream = Bytes.join(readings(0, 20), new byte[1], readings(20, 40));
    List<String> calls = calls(StreamDecoder.Start.AT_BEGINNING, false, stream);
    List<String> expected = readingCalls(0, 20);
    expected.addAll(readingCalls(21, 40));
    assertThat(calls.subList(0, calls.size() - 1)).isEqualTo(expected);
  }

  @Test
  void byteOrderMarkBeforeALogIsSkipped() {
    byte[] stream = Bytes.join(Bytes.hex("efbbbf"), readings(0, 6));
    List<String> calls = calls(StreamDecoder.Start.AT_BEGINNING, true, stream);
    assertThat(calls.subList(0, calls.size() - 1)).isEqualTo(readingCalls(0, 6));
  }

  /**
   * The worst frame for telling the forms apart: 64 samples of the code 0x0A3130, whose bytes are
   * the text line "01". Joined inside it, no line may pass for a reading.
   */
  @Test
  void frameThatLooksLikeTextIsNotTakenForText() {
    int[] textLike = new int[64];
    Arrays.fill(textLike, 0x0A3130);
    byte[] frame = Bytes.samples(0, 0, 800_000, textLike);
    byte[] stream = Bytes.join(frame, frame, FRAME);
    for (int from = 1; from < frame.length; from++) {
      StreamDecoder decoder = midway();
      byte[] tail = Arrays.copyOfRange(stream, from, stream.length);
      assertThat(Bytes.decode(decoder, tail, 17).calls)
          .as("joined at byte %d", from)
          .hasSize(2)
          .allMatch(call -> call.startsWith("samples"));
    }
  }

  @Test
  void frameOfAHostOrOfAnUnknownTypeSettlesNothing() {
    StreamDecoder decoder = midway();
    byte[] echo = new HostFrames().encode(new HostCommand(MessageType.START, 3, 0));
    Bytes.decode(decoder, Bytes.join(echo, echo), 4);
    assertThat(decoder.recognised()).isEmpty();
    assertThat(decoder.tally().thrownAway().unknownTypes()).isEqualTo(2);
  }

  @Test
  void binaryFileCutOffInsideAFrameGivesNoReading() {
    byte[] half = Arrays.copyOf(Bytes.samples(0, 0, 25, 0x0A3130, 0x0A3130, 0x0A3130), 24);
    assertThat(calls(StreamDecoder.Start.AT_BEGINNING, true, half)).hasSize(1);
    assertThat(calls(StreamDecoder.Start.AT_BEGINNING, true, Bytes.join(FRAME, half)))
        .startsWith(FRAME_CALL)
        .hasSize(2);
  }

  @Test
  void givenFormIsKept() {
    StreamDecoder text = StreamDecoder.of(Form.TEXT, StreamDecoder.Start.AT_BEGINNING);
    Received received = Bytes.decode(text, Bytes.join(FRAME, FRAME, Bytes.text("\n5\n")), 3);
    assertThat(received.calls).containsExactly("reading 5");
    assertThat(text.recognised()).contains(Form.TEXT);
    StreamDecoder binary = StreamDecoder.of(Form.BINARY, StreamDecoder.Start.AT_BEGINNING);
    assertThat(Bytes.decode(binary, Bytes.join(readings(0, 90), new byte[1], FRAME), 3).calls)
        .containsExactly(FRAME_CALL);
  }

  @Test
  void reopenedLinkMayHaveAnotherFormBehindIt() {
    StreamDecoder decoder = midway();
    Received received = Bytes.decode(decoder, Bytes.join(FRAME, FRAME), 5);
    decoder.linkReopened();
    assertThat(decoder.recognised()).isEmpty();
    byte[] text = readings(0, 6);
    decoder.accept(text, 0, text.length, received);
    assertThat(received.calls.subList(2, received.calls.size())).isEqualTo(readingCalls(1, 6));
  }
}
