package snick.force.check;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snick.cut.response.Ring;
import snick.quantity.Force;
import snick.quantity.SampleRate;
import snick.virtualrig.RandomRig;
import snick.virtualrig.script.Action;
import snick.virtualrig.script.Script;
import snick.virtualrig.settings.Mechanics;
import snick.virtualrig.settings.RigSettings;

/** The virtual rig is flicked; its own figures are the truth. */
class FlickCheckTest {
  private static Optional<Ring> flicked(
      double hertz, double dampingRatio, double samplesPerSecond, int flicks) {
    RigSettings usual = RigSettings.USUAL;
    RigSettings rig =
        usual
            .with(usual.fixture().with(Mechanics.of(hertz, dampingRatio)))
            .with(usual.converter().withRate(new SampleRate(samplesPerSecond)));
    List<Action> actions = new ArrayList<>(List.of(new Action.Rest(2.3)));
    for (int i = 0; i < flicks; i++) {
      actions.add(new Action.Flick(Force.ofGramForce(60 + 10 * i)));
      actions.add(new Action.Rest(2.3 + 0.0313 * i));
    }
    FlickCheck check = new FlickCheck();
    new RandomRig(7, rig).play(new Script(actions), check::sample);
    return check.ring();
  }

  @ParameterizedTest
  @CsvSource({"43, 0.03, 320", "28, 0.01, 200", "120, 0.05, 1000", "60, 0.1, 640"})
  void resonanceAndDampingComeBack(double hertz, double dampingRatio, double samplesPerSecond) {
    Ring ring = flicked(hertz, dampingRatio, samplesPerSecond, 5).orElseThrow();
    assertThat(ring.hertz())
        .isCloseTo(
            hertz * Math.sqrt(1 - dampingRatio * dampingRatio), Percentage.withPercentage(2));
    assertThat(ring.dampingRatio()).isBetween(dampingRatio / 1.25, dampingRatio * 1.25);
    assertThat(ring.hertzUncertainty()).isLessThan(0.02 * hertz);
  }

  @Test
  void twoFlicksAreTooFewAndRestIsNone() {
    assertThat(flicked(43, 0.03, 320, 2)).isEmpty();
    assertThat(flicked(43, 0.03, 320, 0)).isEmpty();
  }

  /** Above half the rate a swing shows folded: 45 Hz at 80 samples/s looks like 35 Hz. */
  @Test
  void aFastSwingShowsFolded() {
    assertThat(flicked(45, 0.03, 80, 5).orElseThrow().hertz()).isCloseTo(35, within(1.0));
  }
}
