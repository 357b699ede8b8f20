package snick.frame;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

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
}
