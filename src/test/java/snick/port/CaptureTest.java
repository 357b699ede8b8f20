package snick.port;

import static java.nio.charset.StandardCharsets.US_ASCII;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class CaptureTest {
  @TempDir Path folder;
  private Path file;

  @BeforeEach
  void write() throws IOException {
    file = folder.resolve("a.capture");
    try (CaptureWriter writer =
        CaptureWriter.create(file, Instant.EPOCH, "/dev/tty\u001b[31m" + "x".repeat(5000))) {
      writer.append(5, bytes("abc"), 3);
      writer.append(1_000_000_007L, bytes("defg--"), 4);
    }
  }

  @Test
  void givesTheSameBytesWithTheirArrivalTimes() throws IOException {
    try (RecordedSource source = RecordedSource.open(file)) {
      assertThat(all(source)).isEqualTo("abcdefg");
      assertThat(source.torn()).isFalse();
    }
  }

  @Test
  void eachRecordCarriesItsTime() throws IOException {
    List<Long> times = new ArrayList<>();
    try (RecordedSource source = RecordedSource.open(file)) {
      byte[] buffer = new byte[100];
      while (source.read(buffer) > 0) {
        times.add(source.arrivalNanos());
      }
    }

    assertThat(times).containsExactly(5L, 1_000_000_007L);
  }

  @Test
  void aRecordLargerThanTheBufferComesInParts() throws IOException {
    try (RecordedSource source = RecordedSource.open(file)) {
      ByteArrayOutputStream got = new ByteArrayOutputStream();
      byte[] buffer = new byte[2];
      while (!source.ended()) {
        got.write(buffer, 0, source.read(buffer));
      }
      assertThat(got.toString(US_ASCII)).isEqualTo("abcdefg");
    }
  }

  @Test
  void everyTruncationKeepsTheWholeRecordsBefore() throws IOException {
    byte[] whole = Files.readAllBytes(file);
    int header = whole.length - 2 * 16 - 7;
    for (int length = header; length < whole.length; length++) {
      RecordedSource source =
          RecordedSource.of(new ByteArrayInputStream(Arrays.copyOf(whole, length)));
      String expected = length < header + 16 + 3 ? "" : "abc";
      assertThat(all(source)).as("cut at byte " + length).isEqualTo(expected);
      boolean betweenRecords = length == header || length == header + 16 + 3;
      assertThat(source.torn()).as("cut at byte " + length).isEqualTo(!betweenRecords);
    }
  }

  @Test
  void everyFlippedBitInARecordIsNoticed() throws IOException {
    byte[] whole = Files.readAllBytes(file);
    int second = whole.length - 16 - 4;
    for (int bit = second * 8; bit < whole.length * 8; bit++) {
      byte[] bad = whole.clone();
      bad[bit / 8] ^= (byte) (1 << (bit % 8));
      RecordedSource source = RecordedSource.of(new ByteArrayInputStream(bad));
      assertThat(all(source)).isEqualTo("abc");
      assertThat(source.torn()).isTrue();
    }
  }

  @Test
  void plainBytesAreGivenAsTheyAre() throws IOException {
    RecordedSource source = RecordedSource.of(new ByteArrayInputStream(bytes("12\n13\n")));

    assertThat(all(source)).isEqualTo("12\n13\n");
    assertThat(source.ended()).isTrue();
  }

  @Test
  void anEmptyFileJustEnds() throws IOException {
    RecordedSource source = RecordedSource.of(new ByteArrayInputStream(new byte[0]));

    assertThat(all(source)).isEmpty();
    assertThat(source.ended()).isTrue();
  }

  @Test
  void anEndlessHeaderLineIsRefused() {
    byte[] endless = ("snick-capture 1\n" + "x".repeat(10_000)).getBytes(US_ASCII);

    assertThatThrownBy(() -> RecordedSource.of(new ByteArrayInputStream(endless)))
        .hasMessageContaining("1024");
  }

  @Test
  void headerLineHoldsNoControlCharacters() throws IOException {
    String start = new String(Files.readAllBytes(file), 0, 60, US_ASCII);

    assertThat(start).doesNotContain("\u001b").startsWith("snick-capture 1\nbegin=1970-01-01T");
  }

  @Test
  void neverWritesOverAFile() {
    assertThatThrownBy(() -> CaptureWriter.create(file, Instant.EPOCH, "x"))
        .isInstanceOf(FileAlreadyExistsException.class);
  }

  @Test
  void aMissingFileIsNamed() {
    assertThatThrownBy(() -> RecordedSource.open(folder.resolve("none")))
        .isInstanceOf(PortException.class)
        .hasMessageContaining("none");
  }

  private static byte[] bytes(String text) {
    return text.getBytes(US_ASCII);
  }

  private static String all(ByteSource source) throws IOException {
    ByteArrayOutputStream got = new ByteArrayOutputStream();
    byte[] buffer = new byte[100];
    while (!source.ended()) {
      got.write(buffer, 0, source.read(buffer));
    }
    return got.toString(US_ASCII);
  }
}
