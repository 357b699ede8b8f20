package snick.virtualrig.script;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import snick.virtualrig.Rendering;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.bench.TrueCut;
import snick.virtualrig.settings.RigSettings;

class KnifeScenarioTest {
  @Test
  void isPlayedWithinAMinuteAndReportsEveryCut() {
    List<TrueCut> truths = new ArrayList<>();
    Rendering rig =
        new Rendering(
            new VirtualRig(RigSettings.USUAL, 1), (nanos, bytes, length) -> {}, truths::add);
    for (KnifeScenario.Stage stage : KnifeScenario.stages()) {
      int before = truths.size();
      rig.play(stage.script());
      assertThat(truths.subList(before, truths.size()))
          .as(stage.name())
          .hasSize(6)
          .allMatch(cut -> cut.kind() == TrueCut.Kind.SEVERED)
          .allMatch(cut -> cut.placeMillimetres().isPresent());
    }
    assertThat(rig.sent().trueNanos()).isLessThan(55_000_000_000L);
    for (int i = 0; i < truths.size(); i++) {
      assertThat(truths.get(i).number()).isEqualTo(i + 1);
    }
  }
}
