package snick.force.check;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import snick.force.budget.BudgetTerm;
import snick.force.budget.EdgeGeometry;

class PlaceCheckTest {
  private static PlaceCheck.Point at(double mm, double counts) {
    return new PlaceCheck.Point(mm, counts);
  }

  /** Statics of two supports: a cell under one anchor of a span of 100 mm carries F(1 − x/L). */
  @Test
  void aCellUnderOneAnchorFailsByTwoOverTheSpan() {
    PlaceCheck check =
        new PlaceCheck(List.of(at(-10, 600), at(0, 500), at(10, 400)), PlaceCheck.USUAL_LIMIT);
    assertThat(check.passes()).isFalse();
    assertThat(check.largest()).isCloseTo(0.2, within(1e-12));
    assertThat(check.perMillimetre()).isCloseTo(-2.0 / 100, within(1e-12));
  }

  @Test
  void aWholeFramePassesWhateverTheSignOfTheReading() {
    PlaceCheck check = new PlaceCheck(List.of(at(10, -1002), at(0, -1000), at(-10, -999)), 0.0021);
    assertThat(check.passes()).isTrue();
    assertThat(check.largest()).isCloseTo(0.002, within(1e-12));
    assertThat(new PlaceCheck(check.points(), 0.0019).passes()).isFalse();
  }

  @Test
  void tooFewPlacesAreRefused() {
    assertThatThrownBy(() -> new PlaceCheck(List.of(at(0, 1), at(0, 1), at(0, 1)), 0.01))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("2 places");
  }

  /** Half-widths of the page for builders: 1 − cos 5° is 0.38 %; rectangular, over √3. */
  @Test
  void eachTermIsNamedAlsoWhereItIsZero() {
    List<BudgetTerm> none = EdgeGeometry.NOT_STATED.terms();
    assertThat(none)
        .extracting(BudgetTerm::source)
        .containsExactly(
            BudgetTerm.Source.PLACE,
            BudgetTerm.Source.PULL_DIRECTION,
            BudgetTerm.Source.TILT,
            BudgetTerm.Source.FRICTION);
    assertThat(none).allMatch(t -> t.relative() == 0 && t.basis().contains("0, as nothing"));
    List<BudgetTerm> stated = new EdgeGeometry(0.003, 5, 1, 0.01).terms();
    assertThat(stated.get(0).relative()).isCloseTo(0.003 / Math.sqrt(3), within(1e-12));
    assertThat(stated.get(1).relative()).isCloseTo(0.003805 / Math.sqrt(3), within(1e-6));
    assertThat(stated.get(2).relative()).isCloseTo(0.000152 / Math.sqrt(3), within(1e-6));
    assertThat(stated.get(3).relative()).isCloseTo(0.01 / Math.sqrt(3), within(1e-12));
  }
}
