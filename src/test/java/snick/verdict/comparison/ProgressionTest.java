package snick.verdict.comparison;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import snick.phrase.NotAccepted;
import snick.verdict.statistic.Holm;
import snick.verdict.statistic.Readings;

class ProgressionTest {
  private static final Readings FOUND = Readings.ofGramForce("as found", 201, 196, 205, 199, 203);
  private static final Readings STONE =
      Readings.ofGramForce("after stone", 121, 118, 124, 119, 123);
  private static final Readings STROP = Readings.ofGramForce("after strop", 100, 98, 103, 99, 101);
  private static final Readings AGAIN = Readings.ofGramForce("again", 101, 98.5, 102, 99, 100.5);

  /** By hand from Holm's rule: sorted p times 4, 3, 2, 1, made monotone. */
  @Test
  void holmByHand() {
    assertThat(Holm.adjusted(new double[] {0.01, 0.04, 0.03, 0.005}))
        .containsExactly(new double[] {0.03, 0.06, 0.06, 0.02}, within(1e-15));
    assertThat(Holm.adjusted(new double[] {0.6, 0.7})).containsExactly(1, 1);
    assertThat(Holm.adjusted(new double[0])).isEmpty();
  }

  @Test
  void saysWhereTheGainCameFrom() {
    Progression p = Progression.of(List.of(FOUND, STONE, STROP), Judge.plain());

    assertThat(p.whole().verdict()).isEqualTo(Change.LOWER);
    assertThat(p.steps()).extracting(Progression.Step::change).containsOnly(Change.LOWER);
    assertThat(p.steps().get(0).shareOfGain().orElseThrow()).isCloseTo(0.7933, within(1e-3));
    assertThat(p.steps().stream().mapToDouble(s -> s.shareOfGain().orElseThrow()).sum())
        .isCloseTo(1, within(1e-12));
    assertThat(p.plateau()).isInstanceOf(Progression.Plateau.NoMargin.class);
  }

  @Test
  void plateauNeedsEquivalentLastStages() {
    Progression reached =
        Progression.of(List.of(FOUND, STONE, STROP, AGAIN), Judge.withMarginGf(5));
    assertThat(reached.plateau())
        .isInstanceOfSatisfying(
            Progression.Plateau.Reached.class,
            r -> {
              assertThat(r.since()).isEqualTo("after strop");
              assertThat(r.stages()).isEqualTo(2);
            });
    assertThat(Progression.of(List.of(FOUND, STONE), Judge.withMarginGf(5)).plateau())
        .isInstanceOf(Progression.Plateau.NotShown.class);
  }

  @Test
  void anEdgeThatWasKeenerBeforeIsOnNoPlateau() {
    Readings dulled = Readings.ofGramForce("steel", 140, 142, 139, 141, 143);
    Readings again = Readings.ofGramForce("strop 2", 141, 140, 142, 139, 142);
    Progression p =
        Progression.of(List.of(FOUND, STONE, STROP, dulled, again), Judge.withMarginGf(5));
    assertThat(p.plateau())
        .isInstanceOfSatisfying(
            Progression.Plateau.KeenerBefore.class,
            lost -> assertThat(lost.best()).isEqualTo("after strop"));
    assertThat(p.steps())
        .filteredOn(s -> s.change() != Change.LOWER)
        .allMatch(s -> s.shareOfGain().isEmpty());
    assertThat(p.steps().stream().flatMapToDouble(s -> s.shareOfGain().stream()))
        .allMatch(share -> share > 0 && share <= 1);
  }

  @Test
  void theRigGivesAMarginIfNoneIsStated() {
    RigRepeatability rig = new RigRepeatability(2, 20, "invented study");
    Judge judge = new Judge(OptionalDouble.empty(), Optional.of(rig));
    assertThat(Progression.of(List.of(FOUND, STROP, AGAIN), judge).plateau())
        .isInstanceOf(Progression.Plateau.Reached.class);
  }

  @Test
  void manyStepsMustEachStandTheAdjustment() {
    Readings a = Readings.ofGramForce("a", 100, 104, 96, 102, 98);
    Readings b = Readings.ofGramForce("b", 95, 99, 92, 96, 93);
    Comparison alone = Judge.plain().compare(a, b);
    assertThat(alone.verdict()).isEqualTo(Change.LOWER);
    assertThat(alone.decision().p()).isBetween(0.02, 0.05);

    Progression p = Progression.of(List.of(a, b, a, b), Judge.plain());
    assertThat(p.steps())
        .extracting(Progression.Step::change)
        .containsOnly(Change.NO_DIFFERENCE_SHOWN);
    assertThat(p.steps().get(0).holmP()).isCloseTo(3 * alone.decision().p(), within(1e-12));
  }

  @Test
  void oneStageIsNoProgression() {
    assertThatThrownBy(() -> Progression.of(List.of(FOUND), Judge.plain()))
        .isInstanceOf(NotAccepted.class)
        .hasMessage("a progression needs 2 stages or more with cuts, not 1");
  }
}
