package snick.cut;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.function.LongFunction;
import java.util.function.Predicate;
import java.util.stream.LongStream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The detector and its forces on whole rigs drawn at random, by a generator written apart from
 * both: figures pooled and rig by rig, and by kind of hand. Seeds other than those that constants
 * were chosen on.
 */
class StrangersRigsTest {
  private static final long FIRST_SEED = 40_000;
  private static final int RIGS = 40;
  private static final int CUTS = 16;
  private static final List<StrangersTrial.Tally> BY_RIG = new ArrayList<>();
  private static final Map<StrangersRig.Hand, StrangersTrial.Tally> BY_HAND =
      new EnumMap<>(StrangersRig.Hand.class);
  private static final StrangersTrial.Tally ALL = new StrangersTrial.Tally();

  @BeforeAll
  static void cut() {
    for (int i = 0; i < RIGS; i++) {
      StrangersRig rig = new StrangersRig(FIRST_SEED + i).record(CUTS, 1.5, 2.5);
      StrangersTrial.Tally tally = StrangersTrial.of(rig, BY_HAND);
      BY_RIG.add(tally);
      ALL.add(tally);
    }
  }

  private static long rigs(Predicate<StrangersTrial.Tally> of) {
    return BY_RIG.stream().filter(of).count();
  }

  @Test
  void findsAllCutsAndNothingElse() {
    assertThat(ALL.found).as(ALL.line()).isGreaterThanOrEqualTo((int) (0.995 * RIGS * CUTS));
    assertThat(ALL.falseCuts).isLessThanOrEqualTo(RIGS * CUTS / 1000 + 1);
    assertThat(ALL.others).isLessThanOrEqualTo(RIGS * CUTS / 100);
    assertThat(rigs(t -> t.found == t.cuts && t.falseCuts + t.others == 0))
        .isGreaterThanOrEqualTo(RIGS * 9 / 10);
  }

  @Test
  void uncertaintyIsNeitherTooSmallNorTooLarge() {
    assertThat(ALL.coverage()).as(ALL.line()).isBetween(90.0, 99.0);
    assertThat(rigs(t -> t.coverage() >= 80)).isGreaterThanOrEqualTo(RIGS * 95 / 100);
  }

  @Test
  void coversForEveryKindOfHand() {
    assertThat(BY_HAND).containsOnlyKeys(StrangersRig.Hand.values());
    BY_HAND.forEach(
        (hand, t) -> assertThat(t.coverage()).as("%s %s", hand, t.line()).isBetween(90.0, 100.0));
  }

  @Test
  void hasNoBiasOnNearlyAllRigs() {
    assertThat(rigs(t -> Math.abs(t.bias()) <= 0.5)).isGreaterThanOrEqualTo(RIGS * 95 / 100);
  }

  @Test
  void comesNearerThanTheLargestSampleWhereThatIsFarOff() {
    assertThat(rigs(t -> t.rmsMax() <= 0.5 || t.rms() <= 0.8 * t.rmsMax()))
        .isGreaterThanOrEqualTo(RIGS * 90 / 100);
  }

  @Test
  void cutsInQuickSuccessionAreFoundToo() {
    StrangersTrial.Tally quick = new StrangersTrial.Tally();
    for (int i = 0; i < RIGS / 2; i++) {
      quick.add(StrangersTrial.of(new StrangersRig(FIRST_SEED + i).record(CUTS, 0.35, 0.5), false));
    }
    assertThat(quick.found).as(quick.line()).isGreaterThanOrEqualTo((int) (0.98 * quick.cuts));
    assertThat(quick.coverage()).isGreaterThanOrEqualTo(85);
  }

  /** None is more than 5 % off and outside twice its uncertainty. */
  @Test
  void noForceIsGrosslyWrongWithoutSayingSo() {
    assertThat(ALL.gross).as(ALL.line()).isZero();
  }

  /** None of these readings has a spike: at most one cut in a thousand says so. */
  @Test
  void ringsAreNotTakenForSpikes() {
    assertThat(ALL.spikes).as(ALL.line()).isLessThanOrEqualTo(RIGS * CUTS / 1000 + 1);
  }

  /** Two rigs whose swings after a fall look like spikes in it. */
  @ParameterizedTest
  @ValueSource(longs = {150_013, 150_016})
  void noSwingOfTheseIsTakenForASpike(long seed) {
    StrangersTrial.Tally swings =
        StrangersTrial.of(new StrangersRig(seed).record(25, 1.5, 2.5), false);
    assertThat(swings.found).as(swings.line()).isEqualTo(25);
    assertThat(swings.spikes).isZero();
  }

  /** The same rig, hand and noise: a parting of 5 ms in place of 0.5 ms. */
  @Test
  void slowerFallMovesNoForceFartherThanItsUncertainty() {
    long beyond =
        rigsThatMove(
            seed -> new StrangersRig(seed).partingIn(0.0005),
            seed -> new StrangersRig(seed).partingIn(0.005));
    assertThat(beyond).isLessThanOrEqualTo(RIGS * 5 / 100);
  }

  @Test
  void driftMovesNoForceFartherThanItsUncertainty() {
    long beyond =
        rigsThatMove(
            seed -> new StrangersRig(seed).drifting(0),
            seed -> new StrangersRig(seed).drifting(0.25));
    assertThat(beyond).isZero();
  }

  /** On how many rigs the first cut's force moves by more than twice its new uncertainty. */
  private static long rigsThatMove(
      LongFunction<StrangersRig> plain, LongFunction<StrangersRig> other) {
    return LongStream.range(FIRST_SEED, FIRST_SEED + RIGS)
        .filter(
            seed -> {
              Peak before = firstPeak(plain.apply(seed));
              Peak after = firstPeak(other.apply(seed));
              double moved = Math.abs(after.estimateCounts() - before.estimateCounts());
              return moved > 2 * after.standardUncertaintyCounts();
            })
        .count();
  }

  private static Peak firstPeak(StrangersRig rig) {
    return StrangersTrial.detect(rig.record(1, 1.5, 2.5)).get(0).peak().orElseThrow();
  }

  /** The rigs' own drift replaced: as much as a cell that warms up shows, either way. */
  @ParameterizedTest
  @ValueSource(doubles = {-0.25, 0.25})
  void driftMovesNoForceThatUncertaintyDoesNotCover(double gramForcePerSecond) {
    StrangersTrial.Tally drifting = new StrangersTrial.Tally();
    for (int i = 0; i < RIGS / 4; i++) {
      drifting.add(
          StrangersTrial.of(
              new StrangersRig(FIRST_SEED + i).drifting(gramForcePerSecond).record(CUTS, 1.5, 2.5),
              false));
    }
    assertThat(drifting.found).as(drifting.line()).isGreaterThanOrEqualTo(drifting.cuts - 1);
    assertThat(drifting.coverage()).isBetween(88.0, 100.0);
    assertThat(Math.abs(drifting.bias())).isLessThan(0.25);
  }
}
