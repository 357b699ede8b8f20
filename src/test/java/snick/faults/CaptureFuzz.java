package snick.faults;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.zip.CRC32C;
import snick.port.RecordedSource;

/** Fuzz target: capture files, as they are or with records whose checksums are right. */
public final class CaptureFuzz {
  private static final byte[] BEGIN =
      "snick-capture 1\nbegin=x source=y\n".getBytes(StandardCharsets.US_ASCII);

  private CaptureFuzz() {}

  /** One input. */
  public static void fuzzerTestOneInput(byte[] input) {
    FuzzInput from = new FuzzInput(input);
    byte[] file = from.u8() % 2 == 0 ? from.rest() : records(from);
    try (RecordedSource source = RecordedSource.of(new ByteArrayInputStream(file))) {
      read(source, file);
    } catch (IOException e) {
      assertThat(e).hasMessageContaining("capture header line is longer");
    }
  }

  private static void read(RecordedSource source, byte[] file) throws IOException {
    byte[] buffer = new byte[1 + file.length % 97];
    ByteArrayOutputStream got = new ByteArrayOutputStream();
    while (!source.ended()) {
      got.write(buffer, 0, source.read(buffer));
    }
    assertThat(got.size()).isLessThanOrEqualTo(file.length);
    assertThat(source.bytesRead()).isLessThanOrEqualTo(file.length);
    if (!new String(file, StandardCharsets.ISO_8859_1).startsWith("snick-capture 1\n")) {
      assertThat(got.toByteArray()).isEqualTo(file);
    }
  }

  private static byte[] records(FuzzInput from) {
    ByteArrayOutputStream file = new ByteArrayOutputStream();
    file.writeBytes(BEGIN);
    while (!from.isEmpty()) {
      long arrivalNanos = from.u32();
      int length = from.u8() % 16 == 0 ? (int) from.u32() : from.u8();
      byte[] bytes = from.take(Math.max(0, Math.min(length, 300)));
      ByteBuffer head = ByteBuffer.allocate(16).order(ByteOrder.LITTLE_ENDIAN);
      head.putLong(arrivalNanos).putInt(length);
      CRC32C crc = new CRC32C();
      crc.update(head.array(), 0, 12);
      crc.update(bytes);
      head.putInt((int) crc.getValue());
      file.writeBytes(head.array());
      file.writeBytes(bytes);
    }
    return file.toByteArray();
  }
}
