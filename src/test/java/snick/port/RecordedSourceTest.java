package snick.port;

import static java.nio.charset.StandardCharsets.US_ASCII;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.PipedInputStream;
import java.io.PipedOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(30)
class RecordedSourceTest {
  @Test
  void isPausedWhenAllThatCameWasRead() throws IOException {
    try (PipedOutputStream from = new PipedOutputStream();
        PipedInputStream pipe = new PipedInputStream(from)) {
      from.write("1200\n1200\n1200\n1200\n".getBytes(US_ASCII));
      RecordedSource source = RecordedSource.of(pipe);
      byte[] buffer = new byte[15];

      assertThat(source.read(buffer)).isEqualTo(15);
      assertThat(source.paused()).isFalse();
      assertThat(source.read(buffer)).isEqualTo(5);
      assertThat(source.paused()).isTrue();

      from.write("5\n".getBytes(US_ASCII));
      assertThat(source.paused()).isFalse();
    }
  }

  @Test
  void aFileIsPausedAtItsEndOnly() throws IOException {
    RecordedSource source = RecordedSource.of(new ByteArrayInputStream(new byte[10_000]));
    byte[] buffer = new byte[9_999];

    source.read(buffer);
    assertThat(source.paused()).isFalse();
    source.read(buffer);
    assertThat(source.paused()).isTrue();
  }
}
