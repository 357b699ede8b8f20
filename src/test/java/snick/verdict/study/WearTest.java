package snick.verdict.study;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static snick.InEnglish.told;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import snick.phrase.NotAccepted;

class WearTest {
  private static final Wear.Work CARD = new Wear.Work("metre", "corrugated cardboard, invented");

  private static List<Wear.Point> points(double risePerMetreGf) {
    List<Wear.Point> points = new ArrayList<>();
    double[] noise = {0.5, -0.4, 0.2, -0.6, 0.3, 0.1, -0.2, 0.4, -0.3};
    for (int i = 0; i < noise.length; i++) {
      points.add(new Wear.Point(5.0 * i, 60 + risePerMetreGf * 5 * i + noise[i]));
    }
    return points;
  }

  @Test
  void findsWhereHalfTheGainIsLost() {
    Wear.Rising wear = (Wear.Rising) Wear.of(points(0.8), CARD, Optional.of(124.0));

    assertThat(wear.sharpGf()).isCloseTo(60, within(0.5));
    assertThat(wear.risePerUnitGf()).isCloseTo(0.8, within(0.03));
    Wear.HalfGain half = wear.halfGainAt().orElseThrow();
    assertThat(half.work()).isCloseTo(40, within(1.0));
    assertThat(half.ci95().holds(half.work())).isTrue();
    assertThat(half.ci95().high() - half.ci95().low()).isBetween(0.2, 5.0);
    assertThat(told(wear.reason().text())).contains("per metre of corrugated cardboard");
  }

  @Test
  void saysWhenItReachesBeyondTheWorkDone() {
    Wear.Rising wear = (Wear.Rising) Wear.of(points(0.8), CARD, Optional.of(300.0));
    assertThat(wear.halfGainAt().orElseThrow().extrapolated()).isTrue();
    assertThat(told(wear.reason().text())).contains("beyond the work done");
    Wear.Rising alone = (Wear.Rising) Wear.of(points(0.8), CARD, Optional.empty());
    assertThat(alone.halfGainAt()).isEmpty();
  }

  @Test
  void noRiseIsNotShown() {
    assertThat(Wear.of(points(0), CARD, Optional.of(120.0))).isInstanceOf(Wear.NotShown.class);
  }

  @Test
  void refusesTooLittle() {
    assertThatThrownBy(() -> Wear.of(points(1).subList(0, 2), CARD, Optional.empty()))
        .isInstanceOf(NotAccepted.class)
        .hasMessage("wear needs 3 cuts or more at 2 amounts of work or more, not 2 at 2");
    assertThatThrownBy(() -> new Wear.Point(Double.NaN, 3)).isInstanceOf(NotAccepted.class);
    assertThatThrownBy(() -> new Wear.Point(3, Double.NaN)).isInstanceOf(NotAccepted.class);
  }
}
