package snick.frame;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import snick.frame.message.Tally;
import snick.frame.text.LineParser;

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
      assertThat(decoder.tally())
          .isEqualTo(new Tally(0, 5, 4, 1, 0, new Tally.ThrownAway(0, 0, 0, 0, 0)));
      assertThat(decoder.recognised()).contains(Form.TEXT);
    }
  }

  private static StreamDecoder decoder() {
    return StreamDecoder.of(Form.TEXT, StreamDecoder.Start.AT_BEGINNING);
  }

  private static List<String> calls(String text) {
    return Bytes.decode(decoder(), Bytes.text(text), 4096).calls;
  }

  /** nmea_vectors.csv, sources in SOURCES.md beside it. */
  @Test
  void checksumIsThatOfNmea0183() {
    for (String[] row : Vectors.rows("nmea_vectors.csv")) {
      byte[] body = Bytes.text(row[0]);
      assertThat(LineParser.xor(body, 0, body.length)).isEqualTo(Integer.parseInt(row[1], 16));
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "-",
        "+",
        ".",
        "-.",
        "--1",
        "1-",
        "1.2.3",
        "1,",
        ",1",
        "1,,2",
        "1;2",
        "1 2",
        "NaN",
        "12a",
        "1e3",
        "٣",
        "−5",
        "$1",
        "1*",
        "1*1",
        "1*1G",
        "*31",
        "1,2,3",
        "-1,5",
        "+1,5",
        "1.0,5",
        "2147483648",
        "-2147483649",
        "99999999999999999999",
        "1000000000000000000,5",
        "0000000000000000012"
      })
  void lineOfAWrongFormIsRefused(String line) {
    StreamDecoder decoder = decoder();
    byte[] bytes = Bytes.text("1\n" + line + "\n2\n");
    assertThat(Bytes.decode(decoder, bytes, 5).calls).containsExactly("reading 1", "reading 2");
    assertThat(decoder.tally().thrownAway().malformed() + decoder.tally().thrownAway().badChecks())
        .isEqualTo(1);
    assertThat(decoder.tally().thrownAway().bytes()).isEqualTo(bytes.length - 5);
  }

  @ParameterizedTest
  @CsvSource({
    "2147483647, 2147483647",
    "-2147483648, -2147483648",
    "'\t 5 ', 5",
    "007, 7",
    "-0, 0",
    "'999999999999999999 ,\t-1', 999999999999999999 -1"
  })
  void lineOfARightFormIsRead(String line, String reading) {
    assertThat(calls(line + "\r\n")).containsExactly("reading " + reading);
  }

  @ParameterizedTest
  @CsvSource({
    "0.0005, 0",
    "0.0015, 2",
    "0.0025, 2",
    "0.00250000000000000000000001, 3",
    "0.0025000000000000000000000, 2",
    "-0.0035, -4",
    "-0.0004, 0",
    "1.9996, 2000",
    ".5, 500",
    "5., 5000",
    "5, 5000"
  })
  void excessDecimalsAreRoundedHalfToEven(String printed, String thousandths) {
    assertThat(calls("1.0\n" + printed + "\n"))
        .containsExactly("decimals 3", "reading 1000", "reading " + thousandths);
  }

  @Test
  void roundedReadingsAreCounted() {
    StreamDecoder decoder = decoder();
    Bytes.decode(decoder, Bytes.text("1.0\n1.0000\n1.0001\n-1.00049\n"), 3);
    assertThat(decoder.tally().roundedReadings()).isEqualTo(2);
  }

  @ParameterizedTest
  @CsvSource({
    "0.1, 3, 100",
    "12.3456, 4, 123456",
    "0.123456789, 8, 12345679",
    "84213.5, 3, 84213500",
    "8388607.5, 1, 83886075"
  })
  void unitLeavesRoomForSixteenTimesTheFirstReading(String printed, int digits, int counts) {
    assertThat(calls(printed + "\n")).containsExactly("decimals " + digits, "reading " + counts);
  }

  @Test
  void readingWithoutRoomForDecimalsIsInWholeUnits() {
    assertThat(calls("134217727.5\n-2147483648.5\n"))
        .containsExactly("reading 134217728", "reading -2147483648");
  }

  @Test
  void afterReopeningTheUnitIsChosenAgainAndSaidIfItDiffers() {
    StreamDecoder decoder = decoder();
    Received received = Bytes.decode(decoder, Bytes.text("1.5\n"), 9);
    decoder.linkReopened();
    byte[] same = Bytes.text("0\n2.5\n");
    decoder.accept(same, 0, same.length, received);
    decoder.linkReopened();
    byte[] whole = Bytes.text("0\n7\n");
    decoder.accept(whole, 0, whole.length, received);
    assertThat(received.calls)
        .containsExactly("decimals 3", "reading 1500", "reading 2500", "decimals 0", "reading 7");
  }

  @Test
  void unitIsChosenAgainWhenTwoReadingsInARowOutgrowIt() {
    assertThat(calls("1.5\n3000000.5\n1.5\n3000000.5\n3000000.5\n-1.26\n"))
        .containsExactly(
            "decimals 3",
            "reading 1500",
            "reading 1500",
            "decimals 1",
            "reading 30000005",
            "reading -13");
  }

  @Test
  void wholeNumbersBeforeTheFirstPointAreInWholeUnits() {
    assertThat(calls("5\n6.25\n7\n"))
        .containsExactly("reading 5", "decimals 3", "reading 6250", "reading 7000");
  }

  @Test
  void readingsWithoutChecksumAreRefusedOnceOneHadIt() {
    StreamDecoder decoder = decoder();
    byte[] bytes = Bytes.text("1\n2*32\n3\n4*34\n" + "5\n".repeat(15) + "6\n7\n");
    assertThat(Bytes.decode(decoder, bytes, 2).calls)
        .containsExactly("reading 1", "reading 2", "reading 4", "reading 6", "reading 7");
    assertThat(decoder.tally().thrownAway().badChecks()).isEqualTo(16);
  }

  /** The XOR of one byte's change is never 0; of a lost byte neither, for no digit is 00. */
  @Test
  void noDamageOfOneByteToACheckedLineGivesAnotherReading() {
    byte[] line = Bytes.text("1012500,-84213*0A\n");
    assertThat(LineParser.xor(line, 0, 14)).isEqualTo(0x0A);
    for (int at = 0; at < line.length - 1; at++) {
      for (int value = 1; value < 256; value++) {
        byte[] changed = line.clone();
        changed[at] = (byte) value;
        assertNoOtherReading(line, changed);
      }
      byte[] lost = Arrays.copyOf(line, line.length - 1);
      System.arraycopy(line, at + 1, lost, at, lost.length - at);
      assertNoOtherReading(line, lost);
    }
  }

  private static void assertNoOtherReading(byte[] line, byte[] damaged) {
    byte[] stream = Bytes.join(line, damaged, line);
    assertThat(Bytes.decode(decoder(), stream, 4096).calls)
        .filteredOn(call -> call.startsWith("reading"))
        .hasSizeGreaterThanOrEqualTo(2)
        .allMatch("reading 1012500 -84213"::equals);
  }

  @Test
  void headingIsACommentBeforeTheFirstReadingAndMalformedAfter() {
    StreamDecoder decoder = decoder();
    Bytes.decode(decoder, Bytes.text("micros,counts\n\"t\",\"F\"\n1,2\nmicros,counts\n"), 4096);
    assertThat(decoder.tally())
        .isEqualTo(new Tally(0, 1, 1, 2, 0, new Tally.ThrownAway(0, 1, 0, 0, 13)));
  }

  @Test
  void longestLineIsReadAndOneByteMoreIsSkipped() {
    String longest = " ".repeat(127) + "5";
    for (int chunk : new int[] {1, 128, 129, 4096}) {
      StreamDecoder decoder = decoder();
      byte[] bytes = Bytes.text("1\n" + longest + "\n " + longest + "\n2\n");
      assertThat(Bytes.decode(decoder, bytes, chunk).calls)
          .containsExactly("reading 1", "reading 5", "reading 2");
      assertThat(decoder.tally())
          .isEqualTo(new Tally(0, 3, 3, 0, 0, new Tally.ThrownAway(0, 0, 0, 1, 129)));
    }
  }

  @Test
  void announcementsAreBoundedAndHarmless() {
    String key = "k".repeat(64);
    assertThat(calls("#" + key + "=1\n#" + key + "k=1\n# a b=1\n# =1\n#9=1\n# a=\n# m = x=y \n"))
        .containsExactly(key + " = 1", "a = ", "m = x=y");
    assertThat(calls("# unit=µN\n# e=\u001b]52;\u0085\u202e\n"))
        .containsExactly("unit = µN", "e = \uFFFD]52;\uFFFD\uFFFD");
    assertThat(
            Bytes.decode(decoder(), Bytes.join(Bytes.text("# b="), Bytes.hex("ff80410a")), 9).calls)
        .containsExactly("b = \uFFFD\uFFFDA");
  }

  @Test
  void lastLineWithoutLineFeedCountsAtTheEndOnly() {
    StreamDecoder decoder = decoder();
    Received received = Bytes.decode(decoder, Bytes.text("1\n23"), 2);
    assertThat(received.calls).containsExactly("reading 1");
    decoder.end(received);
    assertThat(received.calls).containsExactly("reading 1", "reading 23");
  }

  @Test
  void afterReopeningTheFirstLineIsARest() {
    StreamDecoder decoder = decoder();
    Received received = Bytes.decode(decoder, Bytes.text("1\n23"), 2);
    decoder.linkReopened();
    byte[] more = Bytes.text("45\n6\n");
    decoder.accept(more, 0, more.length, received);
    assertThat(received.calls).containsExactly("reading 1", "reading 6");
    assertThat(decoder.tally().thrownAway().bytes()).isEqualTo(4);
  }
}
