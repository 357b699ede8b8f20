package snick.journal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import snick.phrase.NotAccepted;

class EdgeSpanTest {
  private static final double PLACES_KEPT_TO_MM = 0.001;

  @Test
  void spreadsCutsAlongTheEdge() {
    EdgeSpan span = new EdgeSpan(80, 10, 2);
    List<Double> used = new ArrayList<>();
    for (int i = 0; i < 5; i++) {
      used.add(((NextPlace.At) span.next(used)).place().fromHeelMm());
    }
    assertThat(used).containsExactly(40.0, 10.0, 70.0, 25.0, 55.0);
  }

  @Property(tries = 60)
  void neverCutsASpotTwiceAndSaysWhenFull(
      @ForAll @DoubleRange(min = 5, max = 300) double lengthMm,
      @ForAll @DoubleRange(min = 0.7, max = 10) double spacingMm) {
    EdgeSpan span = new EdgeSpan(lengthMm, lengthMm / 10, spacingMm);
    List<Double> used = new ArrayList<>();
    while (span.next(used) instanceof NextPlace.At at) {
      double place = at.place().fromHeelMm();
      assertThat(used).allMatch(u -> Math.abs(u - place) >= spacingMm - PLACES_KEPT_TO_MM);
      assertThat(place)
          .isBetween(lengthMm / 10 - PLACES_KEPT_TO_MM, lengthMm * 0.9 + PLACES_KEPT_TO_MM);
      used.add(place);
    }
    assertThat(used).hasSizeBetween(1, (int) (lengthMm / spacingMm) + 2);
    NextPlace.Full full = (NextPlace.Full) span.next(used);
    assertThat(full.widestClearanceMm()).isLessThan(spacingMm);
  }

  @Test
  void usesTheBladesLengthOrAShortDefault() {
    assertThat(EdgeSpan.of(Blade.labelled("kitchen 3")).lengthMm())
        .isEqualTo(EdgeSpan.DEFAULT_LENGTH_MM);
    assertThat(EdgeSpan.of(JournalRecordsTest.blade()).lengthMm()).isEqualTo(120);
  }

  @Test
  void refusesSpansWithoutRoom() {
    assertThatThrownBy(() -> new EdgeSpan(10, 5, 1)).isInstanceOf(NotAccepted.class);
    assertThatThrownBy(() -> new EdgeSpan(Double.NaN, 0, 1)).isInstanceOf(NotAccepted.class);
    assertThatThrownBy(() -> new EdgeSpan(10, 1, Double.NaN)).isInstanceOf(NotAccepted.class);
    assertThatThrownBy(() -> new EdgeSpan(10, 1, 0)).isInstanceOf(NotAccepted.class);
  }
}
