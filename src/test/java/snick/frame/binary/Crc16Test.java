package snick.frame.binary;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import snick.frame.Bytes;
import snick.frame.Vectors;

/** Against crc_checks.csv, sources in SOURCES.md beside it. */
class Crc16Test {
  @Test
  void catalogueCheckValue() {
    byte[] digits = Bytes.text("123456789");
    assertThat(Crc16.of(digits, 0, digits.length)).isEqualTo(0x29B1);
  }

  @TestFactory
  Stream<DynamicTest> vectors() {
    return Vectors.rows("crc_checks.csv").stream()
        .map(
            row ->
                DynamicTest.dynamicTest(
                    row[6],
                    () -> {
                      byte[] message = Bytes.hex(row[7]);
                      assertThat(Crc16.of(message, 0, message.length))
                          .isEqualTo(Integer.decode(row[8]));
                    }));
  }

  @Test
  void onlyTheRangeCounts() {
    byte[] bytes = Bytes.text("x123456789y");
    assertThat(Crc16.of(bytes, 1, 9)).isEqualTo(0x29B1);
  }

  /** The definition, bit by bit, for every length around the steps in which the tables go. */
  @ParameterizedTest
  @ValueSource(ints = {0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 31, 252})
  void likeADivisionBitByBit(int length) {
    byte[] bytes = new byte[length];
    new Random(length).nextBytes(bytes);
    int register = 0xFFFF;
    for (byte b : bytes) {
      for (int bit = 7; bit >= 0; bit--) {
        int out = (register >> 15) ^ ((b >> bit) & 1);
        register = ((register << 1) & 0xFFFF) ^ (out * 0x1021);
      }
    }
    assertThat(Crc16.of(bytes, 0, length)).isEqualTo(register);
  }
}
