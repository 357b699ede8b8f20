package snick.cli.cuts;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snick.cli.terminal.JsonLine;
import snick.cut.Cut;
import snick.cut.CutFigures;
import snick.cut.Flag;
import snick.cut.Outcome;
import snick.cut.Peak;
import snick.cut.Trace;
import snick.force.budget.Calibration;
import snick.quantity.Force;

class EventJsonTest {
  private static final Calibration.Line COUNTS =
      new Calibration.Line(1 / Force.NEWTONS_PER_GRAM_FORCE, 0, 0, 0);

  private static String line(Cut cut) {
    StringWriter text = new StringWriter();
    JsonLine.print(new PrintWriter(text), EventJson.of(cut, Optional.of(COUNTS)));
    return text.toString().strip();
  }

  private static Cut cut(OptionalLong breakNanos, Optional<Peak> peak, double rate, Flag... flags) {
    Set<Flag> set = EnumSet.noneOf(Flag.class);
    set.addAll(List.of(flags));
    Trace trace = new Trace(new long[0], new int[0], new boolean[0], List.of());
    return new Cut(
        3,
        new CutFigures(
            breakNanos.isPresent() ? Outcome.SEVERED : Outcome.TRUNCATED,
            1,
            1_250_000_000L,
            breakNanos,
            peak,
            new CutFigures.Shape(rate, 0, 0, 0),
            new CutFigures.Rest(0, 0, 1),
            set),
        trace);
  }

  @Test
  void withoutACalibrationNoFigureIsCalledGramForce() {
    Cut severed = cut(OptionalLong.of(3_418_359_375L), Optional.of(new Peak(90, 100.5, 0.25)), 60);
    assertThat(EventJson.of(severed, Optional.empty()))
        .containsEntry("estimate_counts", 100.5)
        .containsEntry("force_gf", null)
        .containsEntry("u_gf", null)
        .containsEntry("observed_max_gf", null)
        .containsEntry("loading_rate_gf_s", null);
  }

  @Test
  void aLineIsTheContract() {
    Cut severed =
        cut(
            OptionalLong.of(3_418_359_375L),
            Optional.of(new Peak(90, 100.5, 0.25)),
            60.000_000_4,
            Flag.ZERO_MOVED,
            Flag.GAP_INSIDE);
    assertThat(line(severed))
        .isEqualTo(
            "{\"cut\":3,\"outcome\":\"severed\",\"polarity\":1,\"onset_s\":1.25,"
                + "\"break_s\":3.418359375,\"observed_max_counts\":90.0,\"estimate_counts\":100.5,"
                + "\"u_counts\":0.25,\"loading_rate_counts_per_s\":60.0000004,\"fall_s\":0.0,"
                + "\"dips\":0,\"ramp_samples\":0,\"zero_before_counts\":0.0,"
                + "\"zero_after_counts\":0.0,\"noise_counts\":1.0,"
                + "\"flags\":[\"gap_inside\",\"zero_moved\"],\"observed_max_gf\":90.0,"
                + "\"force_gf\":100.5,\"u_gf\":0.25,\"loading_rate_gf_s\":60.0}");
  }

  @Test
  void whatIsNotKnownIsNull() throws IOException {
    String line = line(cut(OptionalLong.empty(), Optional.empty(), 0));
    Map<String, Object> event = JSON.std.mapFrom(line);
    assertThat(event).containsEntry("break_s", null).containsEntry("force_gf", null);
    assertThat(event).containsEntry("u_gf", null).containsEntry("observed_max_gf", null);
    assertThat(event).containsEntry("flags", List.of());
  }

  @ParameterizedTest
  @CsvSource({
    "0",
    "0.000001",
    "-0.000001",
    "0.0005",
    "-1.5",
    "10",
    "999999.999999",
    "123456789.25",
    "1000000000",
    "-2.5e12",
    "1e15"
  })
  void numbersReadBackToTheMillionth(double rate) throws IOException {
    String line = line(cut(OptionalLong.empty(), Optional.empty(), rate));
    double read = ((Number) JSON.std.mapFrom(line).get("loading_rate_gf_s")).doubleValue();
    assertThat(read).isCloseTo(rate, within(1e-6 + 1e-15 * Math.abs(rate)));
  }
}
