package snick.journal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.util.Optional;
import java.util.OptionalDouble;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.StringLength;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import snick.phrase.NotAccepted;

class InspectionWordsTest {
  private static final Instant NOON = Instant.parse("2026-05-04T12:00:00Z");
  private static final Stage STAGE = new Stage(1, "as found");

  @ParameterizedTest
  @CsvSource({
    "left light heel none, RAKING_LIGHT, LEFT, heel, NONE",
    "l light h n, RAKING_LIGHT, LEFT, heel, NONE",
    "NONE LIGHT R 35mm, RAKING_LIGHT, RIGHT, 35mm, NONE",
    "r f 35 mm burr, FINGERTIP, RIGHT, 35mm, BURR_SEEN",
    "b cotton tip ?, COTTON_DRAG, BOTH, tip, UNSURE",
    "nail l mid burr seen, NAIL_DRAG, LEFT, middle, BURR_SEEN",
    "paper tears m, THIN_PAPER, BOTH, middle, TEARS",
    "heel will not start, THIN_PAPER, BOTH, heel, WILL_NOT_START",
    "p clean 12.5mm, THIN_PAPER, BOTH, 12.5mm, CLEAN",
  })
  void readsShortWordsInAnyOrder(
      String text, Method method, Side side, String place, Finding finding) {
    Inspection read = InspectionWords.parse(text).complete(NOON, STAGE, Optional.empty());

    assertThat(read.look().method()).isEqualTo(method);
    assertThat(read.side()).isEqualTo(side);
    assertThat(read.place()).contains(Place.parse(place));
    assertThat(read.finding()).isEqualTo(finding);
    assertThat(read.stage()).isEqualTo("as found");
  }

  @Test
  void readsMagnificationAndNote() {
    Inspection read =
        InspectionWords.parse("right 10x none: bright line: faint")
            .complete(NOON, STAGE, Optional.empty());

    assertThat(read.look().method()).isEqualTo(Method.MAGNIFIER);
    assertThat(read.look().magnification()).hasValue(10);
    assertThat(read.note()).isEqualTo("bright line: faint");
  }

  @Test
  void takesMethodButNeverSideFromTheInspectionBefore() {
    Inspection before =
        InspectionWords.parse("left 20x heel burr").complete(NOON, STAGE, Optional.empty());

    Inspection read =
        InspectionWords.parse("right none").complete(NOON, STAGE, Optional.of(before));

    assertThat(read.look().method()).isEqualTo(Method.MAGNIFIER);
    assertThat(read.look().magnification()).hasValue(20);
    assertThat(read.place()).isEmpty();
    assertThatThrownBy(
            () -> InspectionWords.parse("none").complete(NOON, STAGE, Optional.of(before)))
        .isInstanceOf(NotAccepted.class)
        .hasMessage("side is missing: use left (l), right (r) or both (b)");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "left lihgt none | 'lihgt' is not known. Side: use left (l), right (r) or both (b). Method:",
        "left right none | two words for the side",
        "left light heel tip none | two words for the place",
        "left light none burr | two words for the finding",
        "left light 10x none | two words for the method",
        "left light 35 none | '35' has no unit: write 35mm for a place or 35x for a lens",
        "left light 9999mm none | place along the edge 9999.0 mm is outside 0.0 to 2000.0 mm",
        "left none | method is missing: use light, finger (f), 10x for a magnifier",
        "left light | finding is missing: use burr, none (n) or unsure (u)",
        "paper | finding is missing: use clean, catches, tears",
        "left light tears | finding 'tears' does not fit raking light",
        "paper none | finding 'none' does not fit thin paper",
        "left magnifier none | a magnifier needs its magnification: write it as 10x",
        "left free none | a free inspection needs a note",
      })
  void refusesWithWhatIsAllowed(String text, String message) {
    assertThatThrownBy(() -> InspectionWords.parse(text).complete(NOON, STAGE, Optional.empty()))
        .isInstanceOf(NotAccepted.class)
        .hasMessageContaining(message);
  }

  @Property
  void anyTextIsReadOrRefusedClearly(@ForAll @StringLength(max = 80) String text) {
    try {
      assertThat(InspectionWords.parse(text).note().length()).isLessThanOrEqualTo(text.length());
    } catch (NotAccepted refused) {
      assertThat(refused.getMessage()).isNotBlank().hasSizeLessThan(800);
    }
  }

  @Test
  void refusesEndlessText() {
    String endless = "x".repeat(5000);
    assertThatThrownBy(() -> InspectionWords.parse(endless))
        .isInstanceOf(NotAccepted.class)
        .hasMessage("inspection has 5000 characters, the limit is 4200: shorten it");
  }

  @ParameterizedTest
  @ValueSource(strings = {"35mm", "0mm", "12.5mm", "100mm", "0.001mm", "heel", "middle", "tip"})
  void placesRoundTrip(String word) {
    assertThat(Place.parse(word).word()).isEqualTo(word);
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "35", "-3mm", "35 cm", "NaNmm", "elbow"})
  void refusesOtherPlaces(String word) {
    assertThatThrownBy(() -> Place.parse(word))
        .isInstanceOf(NotAccepted.class)
        .hasMessageContaining("use heel (h), middle (m), tip (t) or a distance such as 35mm");
  }

  @Test
  void nanIsNoPlace() {
    assertThatThrownBy(() -> Place.fromHeel(Double.NaN)).isInstanceOf(NotAccepted.class);
    assertThat(Place.Region.HEEL.millimetres()).isEqualTo(OptionalDouble.empty());
  }
}
