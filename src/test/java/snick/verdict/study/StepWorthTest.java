package snick.verdict.study;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import snick.phrase.Phrase;

class StepWorthTest {
  private static StepWorth.Occasion occasion(String step, double changeGf) {
    return new StepWorth.Occasion(Phrase.of(step), changeGf);
  }

  /**
   * Changes −30, −36, −42 gf: mean −36, s = 6, t with 2 degrees of freedom at 97.5 % is 4.3027
   * (tables of Student's t, for example NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2:
   * 4.303), so the half width is 4.3027 · 6 / √3 = 14.905.
   */
  @Test
  void theMeanChangeHasItsInterval() {
    StepWorth worth =
        StepWorth.of(List.of(occasion("rod", -30), occasion("rod", -36), occasion("rod", -42)))
            .get(0);
    assertThat(worth.change().n()).isEqualTo(3);
    assertThat(worth.change().meanGf()).isEqualTo(-36, within(1e-9));
    assertThat(worth.change().ci95Gf().orElseThrow().low()).isEqualTo(-50.905, within(0.01));
    assertThat(worth.change().ci95Gf().orElseThrow().high()).isEqualTo(-21.095, within(0.01));
  }

  @Test
  void onceHasNoIntervalAndTheBestComesFirst() {
    List<StepWorth> worth = StepWorth.of(List.of(occasion("strop", -5), occasion("rod", -30)));
    assertThat(worth).extracting(w -> w.step().key()).containsExactly("rod", "strop");
    assertThat(worth.get(0).change().ci95Gf()).isEmpty();
  }

  @Test
  void nothingDoneIsNothingTold() {
    assertThat(StepWorth.of(List.of())).isEmpty();
  }
}
