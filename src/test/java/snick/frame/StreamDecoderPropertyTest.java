package snick.frame;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.From;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.LongRange;
import net.jqwik.api.constraints.Size;
import snick.frame.text.LineParser;

class StreamDecoderPropertyTest {
  private static final int LOWEST = -8_388_608;
  private static final int HIGHEST = 8_388_607;

  @Provide
  Arbitrary<byte[]> piece() {
    Arbitrary<int[]> counts =
        Arbitraries.integers()
            .between(LOWEST, HIGHEST)
            .array(int[].class)
            .ofMinSize(2)
            .ofMaxSize(64);
    Arbitrary<byte[]> frame = counts.map(each -> Bytes.samples(each[0] & 0xFFFF, 1, 99, each));
    Arbitrary<byte[]> line =
        Arbitraries.integers()
            .map(
                each ->
                    Bytes.text(String.format(Locale.ROOT, "%d,%d\n", each & 0xFFFFFFFFL, each)));
    Arbitrary<byte[]> lines = line.list().ofMinSize(1).ofMaxSize(30).map(Bytes::join);
    Arbitrary<byte[]> nearlyText =
        Arbitraries.strings()
            .withChars("0123456789.,*-#=a \r\n\0")
            .ofMaxLength(300)
            .map(Bytes::text);
    Arbitrary<byte[]> noise = Arbitraries.bytes().array(byte[].class).ofMaxSize(300);
    Arbitrary<byte[]> zero = Arbitraries.of(new byte[1]);
    return Arbitraries.oneOf(frame, lines, nearlyText, noise, zero);
  }

  @Property(tries = 300)
  void outcomeDoesNotDependOnTheChunks(
      @ForAll @Size(max = 12) List<@From("piece") byte[]> pieces,
      @ForAll @IntRange(min = 1, max = 400) int chunk,
      @ForAll StreamDecoder.Start start) {
    byte[] stream = Bytes.join(pieces);
    List<String> whole = calls(start, stream, Math.max(1, stream.length));
    assertThat(calls(start, stream, 1)).isEqualTo(whole);
    assertThat(calls(start, stream, chunk)).isEqualTo(whole);
  }

  private static List<String> calls(StreamDecoder.Start start, byte[] stream, int chunk) {
    StreamDecoder decoder = StreamDecoder.ofAnyForm(start);
    Received received = Bytes.decode(decoder, stream, chunk);
    decoder.end(received);
    received.calls.add(decoder.tally() + " " + decoder.recognised());
    return received.calls;
  }

  @Property(tries = 300)
  void afterAnythingTheSecondGoodFrameIsDecodedAndNoMoreSkippedThanCame(
      @ForAll @Size(max = 6) List<@From("piece") byte[]> pieces) {
    byte[] anything = Bytes.join(pieces);
    byte[] first = Bytes.samples(1, 5, 0, 1);
    byte[] second = Bytes.samples(2, 6, 0, 2);
    StreamDecoder decoder = StreamDecoder.ofAnyForm(StreamDecoder.Start.MIDWAY);
    Received received = Bytes.decode(decoder, Bytes.join(anything, first, second), 64);
    assertThat(received.calls).endsWith("samples 2 6 0: 2");
    assertThat(decoder.tally().thrownAway().bytes())
        .isBetween(0L, anything.length + (long) first.length);
  }

  @Property(tries = 500)
  void batchesRoundTrip(
      @ForAll @LongRange(max = 0xFFFFFFFFL) long sequence,
      @ForAll @LongRange(max = 0xFFFFFFFFL) long micros,
      @ForAll @LongRange(min = 1, max = 0xFFFFFFFFL) long span,
      @ForAll @Size(min = 2, max = 64) int[] anyInts) {
    int[] counts = Arrays.stream(anyInts).map(each -> each << 8 >> 8).toArray();
    StreamDecoder decoder = StreamDecoder.ofAnyForm(StreamDecoder.Start.MIDWAY);
    byte[] wire = Bytes.samples(sequence, micros, span, counts);
    String expected =
        "samples "
            + sequence
            + " "
            + micros
            + " "
            + span
            + ": "
            + String.join(" ", Arrays.stream(counts).mapToObj(Integer::toString).toList());
    assertThat(Bytes.decode(decoder, wire, 50).calls).containsExactly(expected);
  }

  @Property(tries = 300)
  void readingsRoundTripThroughText(@ForAll long anyMicros, @ForAll int counts) {
    long micros = anyMicros >>> 5;
    String body = micros + "," + counts;
    byte[] bytes = Bytes.text(body);
    String line =
        String.format(Locale.ROOT, "%s*%02X\r\n", body, LineParser.xor(bytes, 0, bytes.length));
    StreamDecoder decoder = StreamDecoder.of(Form.TEXT, StreamDecoder.Start.AT_BEGINNING);
    assertThat(Bytes.decode(decoder, Bytes.text(line), 7).calls)
        .isEqualTo(
            micros < 1_000_000_000_000_000_000L
                ? List.of("reading " + micros + " " + counts)
                : List.of());
  }
}
