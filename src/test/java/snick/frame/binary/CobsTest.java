package snick.frame.binary;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.Stream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import snick.frame.Bytes;
import snick.frame.Vectors;

/** Against cobs_vectors.csv, sources in SOURCES.md beside it. */
class CobsTest {
  @TestFactory
  Stream<DynamicTest> vectors() {
    return Vectors.rows("cobs_vectors.csv").stream()
        .map(
            row ->
                DynamicTest.dynamicTest(
                    row[0] + " bytes " + row[1].substring(0, Math.min(12, row[1].length())),
                    () -> {
                      assertThat(encode(Bytes.hex(row[1]))).isEqualTo(Bytes.hex(row[2]));
                      assertThat(decode(Bytes.hex(row[2]))).contains(Bytes.hex(row[1]));
                    }));
  }

  /** Read in cmcqueen/cobs-python, src/cobs/cobs/test.py; the last two follow from the method. */
  @ParameterizedTest
  @ValueSource(strings = {"00", "05313233", "053132333400", "ff01", "0231ff"})
  void codeThatPointsPastTheEndIsRefused(String hex) {
    assertThat(decode(Bytes.hex(hex))).isEmpty();
  }

  @Property(tries = 500)
  void roundTripWithoutZeros(@ForAll @Size(max = 600) byte[] message) {
    byte[] encoded = encode(message);
    for (byte b : encoded) {
      assertThat(b).isNotZero();
    }
    assertThat(encoded.length).isLessThanOrEqualTo(encodedLimit(message));
    assertThat(decode(encoded)).contains(message);
  }

  @Property(tries = 500)
  void decodingAnythingNeverWritesMoreThanItReads(@ForAll @Size(max = 300) byte[] anything) {
    byte[] out = new byte[anything.length];
    int written = Cobs.decode(anything, 0, anything.length, out).orElse(0);
    assertThat(written).isBetween(0, anything.length);
  }

  /** One byte of overhead, and one more for every full run of 254 (Cheshire and Baker). */
  private static int encodedLimit(byte[] message) {
    return message.length + 1 + message.length / 254;
  }

  private static byte[] encode(byte[] message) {
    byte[] to = new byte[encodedLimit(message)];
    return Arrays.copyOf(to, Cobs.encode(message, 0, message.length, to, 0));
  }

  private static Optional<byte[]> decode(byte[] encoded) {
    byte[] to = new byte[encoded.length];
    OptionalInt length = Cobs.decode(encoded, 0, encoded.length, to);
    return length.isPresent()
        ? Optional.of(Arrays.copyOf(to, length.getAsInt()))
        : Optional.empty();
  }
}
