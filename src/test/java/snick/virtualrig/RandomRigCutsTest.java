package snick.virtualrig;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import snick.cut.Cut;
import snick.cut.CutDetector;
import snick.cut.DetectorSettings;
import snick.cut.Outcome;
import snick.cut.Peak;
import snick.virtualrig.bench.TrueCut;

/**
 * The detector and its forces on the virtual rig's random rigs: a second generator, other equations
 * of motion, hands and filters than those of the detector's own tests.
 */
class RandomRigCutsTest {
  private static final long FIRST_SEED = 5_000;
  private static final int RIGS = 40;
  private static final int CUTS = 12;
  private static final double PER_GRAM_FORCE = 437.25;
  private static final long NEAR_NANOS = 120_000_000L;
  private static final List<Scores> BY_RIG = new ArrayList<>();

  /** What became of one rig's cuts. */
  private static final class Scores {
    private int found;
    private int others;
    private int covered;
    private double sumPercent;
    private double sumUPercent;

    double coveredShare() {
      return covered / (double) Math.max(1, found);
    }

    double meanUPercent() {
      return sumUPercent / Math.max(1, found);
    }

    double biasPercent() {
      return sumPercent / Math.max(1, found);
    }
  }

  @BeforeAll
  static void cut() {
    for (int i = 0; i < RIGS; i++) {
      BY_RIG.add(scores(RandomRig.of(FIRST_SEED + i)));
    }
  }

  private static Scores scores(RandomRig rig) {
    List<Cut> cuts = new ArrayList<>();
    CutDetector detector = new CutDetector(DetectorSettings.defaults(), cuts::add);
    List<TrueCut> truths = rig.play(rig.cuts(CUTS, 1.5, 2.5), detector::sample);
    detector.end();
    Scores scores = new Scores();
    for (Cut cut : cuts) {
      truths.stream()
          .filter(t -> cut.outcome() == Outcome.SEVERED)
          .filter(t -> Math.abs(t.breakNanos() - cut.breakNanos().orElse(0)) < NEAR_NANOS)
          .findFirst()
          .ifPresentOrElse(t -> score(scores, cut.peak().orElseThrow(), t), () -> scores.others++);
    }
    return scores;
  }

  private static void score(Scores scores, Peak peak, TrueCut truth) {
    double trueGramForce = truth.breakForce().gramForce();
    double error = peak.estimateCounts() / PER_GRAM_FORCE - trueGramForce;
    double u = peak.standardUncertaintyCounts() / PER_GRAM_FORCE;
    scores.found++;
    scores.covered += Math.abs(error) <= 2 * u ? 1 : 0;
    scores.sumPercent += 100 * error / trueGramForce;
    scores.sumUPercent += 100 * u / trueGramForce;
  }

  private static long rigs(Predicate<Scores> of) {
    return BY_RIG.stream().filter(of).count();
  }

  @Test
  void findsAllCutsAndNothingElse() {
    assertThat(BY_RIG.stream().mapToInt(s -> s.found).sum())
        .isGreaterThanOrEqualTo((int) (0.995 * RIGS * CUTS));
    assertThat(BY_RIG.stream().mapToInt(s -> s.others).sum()).isLessThanOrEqualTo(5);
  }

  @Test
  void uncertaintyIsNeitherTooSmallNorTooLarge() {
    double covered = BY_RIG.stream().mapToInt(s -> s.covered).sum();
    double found = BY_RIG.stream().mapToInt(s -> s.found).sum();
    assertThat(covered / found).isBetween(0.90, 0.99);
    assertThat(rigs(s -> s.coveredShare() >= 0.8)).isGreaterThanOrEqualTo(RIGS * 95 / 100);
  }

  /** All these filaments part at a strength, on a crest of the tremor; half is allowed for. */
  @Test
  void hasLittleBiasOnNearlyAllRigs() {
    assertThat(rigs(s -> Math.abs(s.biasPercent()) <= Math.max(0.5, s.meanUPercent())))
        .isGreaterThanOrEqualTo(RIGS * 95 / 100);
    assertThat(rigs(s -> Math.abs(s.biasPercent()) <= 0.5)).isGreaterThanOrEqualTo(RIGS * 75 / 100);
  }
}
