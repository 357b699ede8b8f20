package snick.daemon;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import snick.cut.Cut;
import snick.cut.DetectorSettings;
import snick.frame.text.Columns;
import snick.frame.text.TextRule;
import snick.quantity.SampleRate;

/**
 * Every form in the table 'Text that was never meant for Snick' of firmware-protocol.md: the
 * readings of demo-data/as-found.txt (invented) are printed in it. Either its cuts are found as in
 * the plain form, or it is refused with a line shown and the option that reads it.
 */
class SketchFormsTest {
  /** What sketches and loggers are known to print; a row that the document loses is missed. */
  private static final List<String> FORMS =
      List.of(
          "{raw}",
          "{us},{raw}",
          "counts // {raw}",
          "{ms},{raw}",
          "{s},{raw}",
          "{ms}\\t{raw}\\t{g}",
          "# millis raw load // {ms} {raw} {g}",
          "time;raw;load // {s,};{raw};{g,}",
          "time_us;counts // {us};{raw}",
          "\"time [ms]\",\"load [g]\" // {ms},{g}",
          "line,time (s),adc // {line},{s},{raw}",
          "{line}\\t{ms}\\t{raw}",
          "Reading: {g} g",
          "Reading: {g,} g",
          "Weight: {kg} kg",
          "F = {N} N",
          "{ms} ms; {mN} mN",
          "weight: {g}",
          "{g}",
          "raw:{raw},load:{g}",
          "Raw: {raw}\\tLoad: {g}",
          "t={ms} raw={raw}",
          "{\"t\":{ms},\"raw\":{raw},\"g\":{g}}",
          "{iso},{raw}",
          "{date} {clock} {raw}",
          "{clock} -> {raw}",
          "{clock};{g,} g;ok",
          "{raw},{g}",
          "{-raw}",
          "{raw}\\r",
          "{ms},{raw}\\r",
          "{offset}",
          "{ms},{offset}",
          "{unsigned}",
          "{hex}",
          "0x{hex}",
          "{raw},{raw/2}",
          "{line},{raw}",
          "{+g,}");

  private static List<long[]> readings;
  private static List<Cut> expected;

  @BeforeAll
  static void plain() throws IOException {
    readings =
        Files.readAllLines(Path.of("demo-data/as-found.txt"), UTF_8).stream()
            .filter(line -> !line.startsWith("#"))
            .map(line -> line.split("[,*]"))
            .map(parts -> new long[] {Long.parseLong(parts[0]), Long.parseLong(parts[1])})
            .toList();
    expected = new Read("{us},{raw}", "", new TextRule.AsProtocol()).cuts;
    assertThat(expected).hasSizeGreaterThan(3);
  }

  /** What a pipeline makes of the readings, printed in a form. */
  private static final class Read {
    final List<Cut> cuts = new ArrayList<>();
    final Pipeline pipeline;

    Read(String form, String heading, TextRule rule) {
      pipeline =
          new Pipeline(
              new Pipeline.Settings(
                  Optional.empty(), new SampleRate(80), DetectorSettings.defaults(), rule),
              cuts::add);
      byte[] bytes = SketchLines.print(readings, form, heading).getBytes(UTF_8);
      pipeline.accept(bytes, bytes.length);
      pipeline.end();
    }

    String columns() {
      return pipeline.decoder().columns().map(Columns::words).orElse("as the protocol");
    }
  }

  @TestFactory
  Stream<DynamicTest> everyRowOfTheDocument() throws IOException {
    List<FormRow> rows = FormRow.ofDocument();
    assertThat(rows).extracting(FormRow::typed).containsExactlyElementsOf(FORMS);
    return rows.stream()
        .map(row -> DynamicTest.dynamicTest(row.toString(), () -> asTheTableSays(row)));
  }

  private static void asTheTableSays(FormRow row) {
    Read read = new Read(row.form(), row.heading(), new TextRule.FoundOut());
    if (!row.asked()) {
      assertThat(read.columns()).isEqualTo(row.outcome());
      assertSameCuts(read, row.form());
      return;
    }
    assertThat(read.cuts).isEmpty();
    assertThat(read.pipeline.tally().samples()).isZero();
    assertThat(read.pipeline.decoder().refused().orElseThrow().words())
        .contains("line '")
        .contains("--columns " + row.outcome());
    assertSameCuts(
        new Read(row.form(), row.heading(), new TextRule.Named(Columns.parse(row.outcome()))),
        row.form());
  }

  private static void assertSameCuts(Read read, String form) {
    double scale =
        SketchLines.unitsPerCount(form) * Math.pow(10, read.pipeline.stream().decimals());
    assertThat(read.cuts).hasSameSizeAs(expected);
    for (int i = 0; i < expected.size(); i++) {
      Cut cut = read.cuts.get(i);
      assertThat(cut.outcome()).isEqualTo(expected.get(i).outcome());
      double counts = expected.get(i).peak().orElseThrow().estimateCounts();
      assertThat(cut.peak().orElseThrow().estimateCounts() / scale)
          .isCloseTo(counts, within(0.005 * counts));
    }
    assertThat(read.pipeline.stream().facts().restarts()).isZero();
  }

  @Test
  void aChangeOfLabelInTheMiddleIsLeftOutAndShown() {
    Read read = new Read("Reading: {g} g", "converter ready\n", new TextRule.FoundOut());
    byte[] other = "Battery: 3.9 V\n".getBytes(UTF_8);
    long before = read.pipeline.tally().samples();
    read.pipeline.accept(other, other.length);
    assertThat(read.pipeline.tally().samples()).isEqualTo(before);
    assertThat(read.pipeline.decoder().refused().orElseThrow().words())
        .contains("Battery: 3.9 V")
        .contains("read as g");
  }
}
