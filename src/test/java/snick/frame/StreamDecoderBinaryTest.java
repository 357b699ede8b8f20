package snick.frame;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

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
      assertThat(decoder.tally()).isEqualTo(new Tally(6, 0, 6, 0, 0, 0, 0, 0, 0, 0));
      assertThat(decoder.recognised()).contains(Form.BINARY);
    }
  }
}
