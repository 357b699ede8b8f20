package snick.frame.text;

import static java.nio.charset.StandardCharsets.US_ASCII;
import static org.assertj.core.api.Assertions.assertThat;

import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import snick.frame.message.ReadingBatch;

class PlainLinesTest {
  private final PlainLines plainLines = new PlainLines();
  private final LineParser parser = new LineParser();
  private final ReadingBatch batch = new ReadingBatch();

  /** Lines of the characters of which readings are made, long numbers among them. */
  @Provide
  Arbitrary<String> lines() {
    Arbitrary<String> any = Arbitraries.strings().withChars("0123,-+. *\t\r").ofMaxLength(12);
    Arbitrary<String> number = Arbitraries.strings().numeric().ofMinLength(1).ofMaxLength(22);
    Arbitrary<String> pair =
        number.flatMap(first -> number.map(second -> first + "," + second.substring(0, 1)));
    Arbitrary<String> negative =
        number.flatMap(first -> number.map(second -> first + ",-" + second + "\r"));
    return Arbitraries.oneOf(any, number, number.map(n -> "-" + n), pair, negative);
  }

  @Property
  void whatIsTakenIsTheParsersReading(@ForAll("lines") String line) {
    byte[] bytes = (line + "\n").getBytes(US_ASCII);
    batch.clear();

    int next = plainLines.read(bytes, 0, bytes.length, batch);

    LineParser.Kind kind = parser.parse(bytes, 0, bytes.length - 1);
    if (next == 0) {
      assertThat(batch.size()).isZero();
      return;
    }
    assertThat(next).isEqualTo(bytes.length);
    assertThat(batch.size()).isOne();
    assertThat(kind)
        .isEqualTo(batch.timed() ? LineParser.Kind.TIMED_READING : LineParser.Kind.READING);
    assertThat((long) batch.counts(0)).isEqualTo(parser.reading().inUnits(0));
    if (batch.timed()) {
      assertThat(batch.micros(0)).isEqualTo(parser.micros());
    }
  }

  @Property
  void commonLinesAreTaken(@ForAll int micros, @ForAll short counts) {
    String lines = Integer.toUnsignedString(micros) + "," + counts + "\n7,8\r\n9\n";
    byte[] bytes = lines.getBytes(US_ASCII);
    batch.clear();

    int next = plainLines.read(bytes, 0, bytes.length, batch);

    assertThat(next).isEqualTo(lines.length() - 2);
    assertThat(batch.size()).isEqualTo(2);
    assertThat(batch.micros(0)).isEqualTo(Integer.toUnsignedLong(micros));
    assertThat(batch.counts(0)).isEqualTo(counts);
  }

  @Property
  void aLineWithoutItsEndIsLeft(@ForAll short counts) {
    byte[] bytes = ("12500," + counts).getBytes(US_ASCII);
    batch.clear();

    assertThat(plainLines.read(bytes, 0, bytes.length, batch)).isZero();
  }
}
