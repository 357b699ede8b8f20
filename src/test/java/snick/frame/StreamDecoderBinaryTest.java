package snick.frame;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import snick.frame.binary.Cobs;
import snick.frame.message.Hello;
import snick.frame.message.MessageType;
import snick.frame.message.Tally;

class StreamDecoderBinaryTest {
  private static final byte[] STREAM =
      Bytes.join(
          new byte[] {0},
          Bytes.hello(Bytes.HELLO),
          Bytes.samples(0, 100, 0, 5),
          Bytes.samples(1, 12_600, 25_000, -1, 0, 8_388_607),
          Bytes.status(Bytes.STATUS),
          Bytes.answer(Bytes.ANSWER),
          Bytes.samples(4_294_967_295L, 4_294_967_295L, 4_294_967_295L, -8_388_608, 10));

  private static final List<String> MESSAGES =
      List.of(
          Bytes.HELLO.toString(),
          "samples 0 100 0: 5",
          "samples 1 12600 25000: -1 0 8388607",
          Bytes.STATUS.toString(),
          Bytes.ANSWER.toString(),
          "samples 4294967295 4294967295 4294967295: -8388608 10");

  @Test
  void everyMessageAtEverySplit() {
    for (int chunk = 1; chunk <= STREAM.length; chunk++) {
      StreamDecoder decoder = StreamDecoder.ofAnyForm(StreamDecoder.Start.MIDWAY);
      Received received = Bytes.decode(decoder, STREAM, chunk);
      assertThat(received.calls).as("chunks of %d", chunk).isEqualTo(MESSAGES);
      assertThat(decoder.tally())
          .isEqualTo(new Tally(6, 0, 6, 0, 0, new Tally.ThrownAway(0, 0, 0, 0, 0)));
      assertThat(decoder.recognised()).contains(Form.BINARY);
    }
  }

  private static final byte[] FIRST = Bytes.samples(7, 1000, 0, 11);
  private static final byte[] SECOND = Bytes.samples(8, 2000, 0, 22);
  private static final String FIRST_CALL = "samples 7 1000 0: 11";
  private static final String SECOND_CALL = "samples 8 2000 0: 22";

  private static Received decode(byte[]... parts) {
    return Bytes.decode(decoder(), Bytes.join(parts), 4096);
  }

  private static StreamDecoder decoder() {
    return StreamDecoder.ofAnyForm(StreamDecoder.Start.MIDWAY);
  }

  @Test
  void garbageBeforeBetweenAndAfterCostsAtMostTheNextFrame() {
    byte[] garbage = Bytes.hex("01 ff 13 37 5a 0a 31 0a 80");
    assertThat(decode(garbage, FIRST, SECOND).calls).containsExactly(SECOND_CALL);
    assertThat(decode(FIRST, garbage, SECOND, FIRST).calls).containsExactly(FIRST_CALL, FIRST_CALL);
    assertThat(decode(FIRST, SECOND, garbage).calls).containsExactly(FIRST_CALL, SECOND_CALL);
    assertThat(decode(FIRST, garbage, new byte[1], SECOND).calls)
        .containsExactly(FIRST_CALL, SECOND_CALL);
  }

  @Test
  void skippedBytesAreCounted() {
    StreamDecoder decoder = decoder();
    byte[] garbage = Bytes.hex("05 11 22 33 44 00");
    Bytes.decode(decoder, Bytes.join(FIRST, garbage, SECOND, garbage), 5);
    assertThat(decoder.tally())
        .isEqualTo(new Tally(2, 0, 2, 0, 0, new Tally.ThrownAway(2, 0, 0, 0, 10)));
  }

  @Test
  void everyTailOfAStreamDecodesAllButItsFirstFrame() {
    byte[] stream = Bytes.join(FIRST, SECOND, FIRST);
    for (int from = 1; from < FIRST.length; from++) {
      StreamDecoder decoder = decoder();
      byte[] tail = Arrays.copyOfRange(stream, from, stream.length);
      assertThat(Bytes.decode(decoder, tail, 3).calls)
          .as("from byte %d", from)
          .containsExactly(SECOND_CALL, FIRST_CALL);
      assertThat(
              decoder.tally().thrownAway().badChecks() + decoder.tally().thrownAway().malformed())
          .isZero();
    }
  }

  @Test
  void bodyOneByteShorterOrLongerIsMalformed() {
    byte[] fine = plainBody(FIRST);
    for (int length : new int[] {fine.length - 1, fine.length + 1}) {
      StreamDecoder decoder = decoder();
      byte[] wrong = Bytes.frame(MessageType.SAMPLES.code(), Arrays.copyOf(fine, length));
      assertThat(Bytes.decode(decoder, Bytes.join(SECOND, wrong), 4).calls)
          .containsExactly(SECOND_CALL);
      assertThat(decoder.tally().thrownAway().malformed()).isEqualTo(1);
    }
  }

  @Test
  void everyDeviceMessageIsMalformedAtEveryOtherLength() {
    for (byte[] frame :
        List.of(Bytes.hello(Bytes.HELLO), Bytes.status(Bytes.STATUS), Bytes.answer(Bytes.ANSWER))) {
      byte[] body = plainBody(frame);
      int type = type(frame);
      for (int length = 0; length <= 251; length++) {
        byte[] wrong = Bytes.frame(type, Arrays.copyOf(body, length));
        Received received = decode(wrong);
        assertThat(received.calls).hasSize(length == body.length ? 1 : 0);
      }
    }
  }

  private static int type(byte[] frame) {
    byte[] plain = new byte[256];
    assertThat(Cobs.decode(frame, 0, frame.length - 1, plain)).isPresent();
    return plain[0] & 0xFF;
  }

  private static byte[] plainBody(byte[] frame) {
    byte[] plain = new byte[256];
    int length = Cobs.decode(frame, 0, frame.length - 1, plain).orElseThrow();
    return Arrays.copyOfRange(plain, 1, length - 2);
  }

  @Test
  void longestFrameIsReadAndOneByteMoreIsSkipped() {
    byte[] longest = Bytes.frame(0x1F, new byte[251]);
    assertThat(longest).hasSize(256);
    for (int chunk : new int[] {1, 100, 255, 256, 1000}) {
      StreamDecoder decoder = decoder();
      byte[] tooLong = Bytes.join(Arrays.copyOf(longest, 255), new byte[] {1, 0});
      Bytes.decode(decoder, Bytes.join(FIRST, longest, tooLong, SECOND), chunk);
      assertThat(decoder.tally())
          .as("chunks of %d", chunk)
          .isEqualTo(new Tally(2, 0, 2, 0, 0, new Tally.ThrownAway(0, 0, 1, 1, 255 + 256)));
    }
  }

  @Test
  void tooLongFrameIsSkippedWhenTheFormIsGiven() {
    for (int chunk : new int[] {1, 255, 256, 5000}) {
      StreamDecoder decoder = StreamDecoder.of(Form.BINARY, StreamDecoder.Start.MIDWAY);
      byte[] flood = new byte[1000];
      Arrays.fill(flood, (byte) '7');
      Received received =
          Bytes.decode(decoder, Bytes.join(FIRST, flood, new byte[1], SECOND), chunk);
      assertThat(received.calls).containsExactly(FIRST_CALL, SECOND_CALL);
      assertThat(decoder.tally())
          .isEqualTo(new Tally(2, 0, 2, 0, 0, new Tally.ThrownAway(0, 0, 0, 1, 1000)));
    }
  }

  @Test
  void unknownTypeIsCountedAndSkipped() {
    StreamDecoder decoder = decoder();
    byte[] unknown = Bytes.frame(0x05, (byte) 1, (byte) 2);
    assertThat(Bytes.decode(decoder, Bytes.join(FIRST, unknown, SECOND), 9).calls)
        .containsExactly(FIRST_CALL, SECOND_CALL);
    assertThat(decoder.tally().thrownAway().unknownTypes()).isEqualTo(1);
  }

  @Test
  void helloOfALaterVersionMayGrow() {
    byte[] body = plainBody(Bytes.hello(new Hello(2, 5, "later", 24, 64, 10_000, 0)));
    byte[] grown = Bytes.frame(MessageType.HELLO.code(), Arrays.copyOf(body, body.length + 9));
    assertThat(decode(grown).hellos).containsExactly(new Hello(2, 5, "later", 24, 64, 10_000, 0));
    body[0] = 1;
    assertThat(
            decode(Bytes.frame(MessageType.HELLO.code(), Arrays.copyOf(body, body.length + 9)))
                .hellos)
        .isEmpty();
  }

  @Test
  void helloOutOfRangeIsMalformed() {
    byte[] body = plainBody(Bytes.hello(Bytes.HELLO));
    for (int[] spoilt : new int[][] {{0, 0}, {9, 7}, {9, 25}, {20, 33}}) {
      byte[] wrong = body.clone();
      wrong[spoilt[0]] = (byte) spoilt[1];
      assertThat(decode(Bytes.frame(MessageType.HELLO.code(), wrong)).calls).isEmpty();
    }
  }

  @Test
  void batchWithImpossibleSizeOrSpanIsMalformed() {
    byte[] body = new byte[13 + 3 * 65];
    assertThat(decode(Bytes.frame(MessageType.SAMPLES.code(), sized(body, 0))).calls).isEmpty();
    assertThat(decode(Bytes.frame(MessageType.SAMPLES.code(), sized(body, 65))).calls).isEmpty();
    assertThat(decode(Bytes.frame(MessageType.SAMPLES.code(), sized(body, 2))).calls).isEmpty();
    byte[] single = sized(body, 1);
    single[8] = 1;
    assertThat(decode(Bytes.frame(MessageType.SAMPLES.code(), single)).calls).isEmpty();
  }

  private static byte[] sized(byte[] body, int n) {
    byte[] sized = Arrays.copyOf(body, 13 + 3 * n);
    sized[12] = (byte) n;
    return sized;
  }

  @Test
  void firmwareTextIsMadeHarmless() {
    Hello nasty = new Hello(1, 1, "a\u001b[2J\n\u202eb", 24, 128, 80_000, 0);
    Hello received = decode(Bytes.hello(nasty)).hellos.get(0);
    assertThat(received.firmware()).isEqualTo("a\uFFFD[2J\uFFFD\uFFFDb");
  }

  /** adc_codes.csv, sources in SOURCES.md beside it. */
  @Test
  void converterCodesAreSignExtended() {
    for (String[] row : Vectors.rows("adc_codes.csv")) {
      int code = Integer.decode(row[0]);
      byte[] body = sized(new byte[13], 1);
      body[13] = (byte) code;
      body[14] = (byte) (code >> 8);
      body[15] = (byte) (code >> 16);
      assertThat(decode(Bytes.frame(MessageType.SAMPLES.code(), body)).calls)
          .containsExactly("samples 0 0 0: " + row[1]);
    }
  }

  @Test
  void afterReopeningTheHalfFrameIsForgotten() {
    StreamDecoder decoder = decoder();
    Received received = new Received();
    decoder.accept(FIRST, 0, FIRST.length, received);
    decoder.accept(SECOND, 0, 9, received);
    decoder.linkReopened();
    decoder.accept(SECOND, 0, SECOND.length, received);
    assertThat(received.calls).containsExactly(FIRST_CALL, SECOND_CALL);
    assertThat(decoder.tally().thrownAway().bytes()).isEqualTo(9);
  }
}
