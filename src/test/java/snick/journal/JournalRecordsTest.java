package snick.journal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import snick.journal.SharpeningStep.Grain;
import snick.phrase.NotAccepted;

class JournalRecordsTest {
  static Blade blade() {
    return new Blade(
        "invented blade 7",
        "plain carbon",
        OptionalDouble.of(61),
        OptionalDouble.of(30),
        OptionalDouble.of(0.25),
        OptionalDouble.of(120),
        OptionalDouble.empty(),
        "an invented example");
  }

  @ParameterizedTest
  @ValueSource(doubles = {Double.NaN, 19.9, 80.1, Double.POSITIVE_INFINITY})
  void hardnessHasARange(double hrc) {
    assertThatThrownBy(
            () ->
                new Blade(
                    "a",
                    "",
                    OptionalDouble.of(hrc),
                    OptionalDouble.empty(),
                    OptionalDouble.empty(),
                    OptionalDouble.empty(),
                    OptionalDouble.empty(),
                    ""))
        .isInstanceOf(NotAccepted.class)
        .hasMessage("hardness " + hrc + " HRC is outside 20.0 to 80.0 HRC");
  }

  @Test
  void labelsAreBoundedAndPlain() {
    assertThat(Blade.labelled("  wide  ").label()).isEqualTo("wide");
    assertThatThrownBy(() -> Blade.labelled("  ")).hasMessageContaining("blade label is empty");
    assertThatThrownBy(() -> Blade.labelled("x".repeat(121)))
        .hasMessage("blade label has 121 characters, the limit is 120: shorten it");
    assertThatThrownBy(() -> Blade.labelled("red\u001b[31m"))
        .hasMessage("blade label holds control character 27 at place 4: remove it");
    assertThatThrownBy(() -> Blade.labelled("red\ud83d"))
        .hasMessage("blade label holds control character 55357 at place 4: remove it");
    assertThatCode(() -> Blade.labelled("red\ud83d\udd2a")).doesNotThrowAnyException();
    assertThatCode(() -> Blade.labelled("x".repeat(120))).doesNotThrowAnyException();
  }

  @Test
  void notesTakeLinesButNoOtherControls() {
    Instant at = Instant.EPOCH;
    assertThatCode(() -> new SetAside(at, 1, "slipped\n\tsecond try")).doesNotThrowAnyException();
    assertThatThrownBy(() -> new SetAside(at, 1, "bell\u0007"))
        .hasMessageContaining("control character 7");
    assertThatThrownBy(() -> new SetAside(at, 1, " ")).hasMessageContaining("say why");
    assertThatThrownBy(() -> new SetAside(at, 0, "slip")).hasMessage("cut 0 is below 1");
    assertThatThrownBy(() -> new SetAside(at, 1, "y".repeat(4001)))
        .hasMessageContaining("the limit is 4000");
  }

  @Test
  void lotsAndStepsHaveRanges() {
    assertThatThrownBy(() -> new FilamentLot("L1", "nylon", Map.of(LotFigure.DIAMETER, 0.0)))
        .isInstanceOf(NotAccepted.class);
    assertThatThrownBy(() -> new FilamentLot("L1", "nylon", Map.of(LotFigure.DIAMETER, Double.NaN)))
        .isInstanceOf(NotAccepted.class);
    assertThatThrownBy(() -> step(OptionalInt.of(0), OptionalDouble.empty()))
        .hasMessage("grit 0 is outside 1 to 100000");
    assertThatThrownBy(() -> step(OptionalInt.empty(), OptionalDouble.of(Double.NaN)))
        .hasMessageContaining("grain size NaN µm");
  }

  private static SharpeningStep step(OptionalInt grit, OptionalDouble micron) {
    return new SharpeningStep(
        Instant.EPOCH,
        "after strop",
        "leather strop",
        new Grain(grit, micron),
        Optional.of(EdgeDirection.EDGE_TRAILING),
        OptionalInt.of(10),
        Optional.of(Pressure.LIGHT),
        "");
  }

  @Test
  void wordsAreThoseOfTheStore() {
    assertThat(Method.RAKING_LIGHT.word()).isEqualTo("raking_light");
    assertThat(Finding.WILL_NOT_START.word()).isEqualTo("will_not_start");
    assertThat(EdgeDirection.EDGE_LEADING.word()).isEqualTo("edge_leading");
    assertThat(Pressure.VERY_LIGHT.word()).isEqualTo("very_light");
    assertThat(Side.LEFT.word()).isEqualTo("left");
  }

  @Test
  void wordsAreReadBack() {
    assertThat(EdgeDirection.parse("trailing")).isEqualTo(EdgeDirection.EDGE_TRAILING);
    assertThat(EdgeDirection.parse("edge-leading")).isEqualTo(EdgeDirection.EDGE_LEADING);
    assertThat(Pressure.parse("Light")).isEqualTo(Pressure.LIGHT);
    assertThat(Pressure.parse("very light")).isEqualTo(Pressure.VERY_LIGHT);
    assertThatThrownBy(() -> Pressure.parse("hard"))
        .isInstanceOf(NotAccepted.class)
        .hasMessage("pressure 'hard' is not known: use very-light, light, medium, firm");
    assertThatThrownBy(() -> EdgeDirection.parse("edge"))
        .hasMessage(
            "edge direction 'edge' is not known: use edge-leading, edge-trailing, alternating");
  }

  @Test
  void findingsFitTheirMethods() {
    assertThat(Finding.TEARS.fits(Method.THIN_PAPER)).isTrue();
    assertThat(Finding.TEARS.fits(Method.FINGERTIP)).isFalse();
    assertThat(Finding.NONE.fits(Method.THIN_PAPER)).isFalse();
    assertThat(Finding.UNSURE.fits(Method.THIN_PAPER)).isTrue();
    assertThat(Finding.UNSURE.fits(Method.FINGERTIP)).isTrue();
  }
}
