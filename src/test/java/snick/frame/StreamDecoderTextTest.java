package snick.frame;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class StreamDecoderTextTest {
  @Test
  void everyLineAtEverySplit() {
    byte[] stream = Bytes.text("# rate = 80\r\n# a remark\n12,-5\r\n 24 , +7 \n9\n\n-8388608\n");
    for (int chunk = 1; chunk <= stream.length; chunk++) {
      StreamDecoder decoder = StreamDecoder.ofAnyForm(StreamDecoder.Start.AT_BEGINNING);
      Received received = Bytes.decode(decoder, stream, chunk);
      assertThat(received.calls)
          .as("chunks of %d", chunk)
          .isEqualTo(
              List.of(
                  "rate = 80", "reading 12 -5", "reading 24 7", "reading 9", "reading -8388608"));
      assertThat(decoder.tally()).isEqualTo(new Tally(0, 5, 4, 0, 0, 0, 0, 1, 0, 0));
      assertThat(decoder.recognised()).contains(Form.TEXT);
    }
  }
}
