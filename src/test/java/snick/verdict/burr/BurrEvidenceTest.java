package snick.verdict.burr;

import static org.assertj.core.api.Assertions.assertThat;
import static snick.InEnglish.told;
import static snick.verdict.Notes.cut;
import static snick.verdict.Notes.cuts;
import static snick.verdict.Notes.stage;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import snick.verdict.burr.BurrClue.Kind;
import snick.verdict.burr.BurrClue.Says;
import snick.verdict.burr.BurrVerdict.Burr;
import snick.verdict.comparison.Judge;
import snick.verdict.comparison.Reason;
import snick.verdict.comparison.RigRepeatability;

class BurrEvidenceTest {
  private static final Judge WITH_RIG =
      new Judge(OptionalDouble.empty(), Optional.of(new RigRepeatability(3, 20, "invented study")));

  private static BurrVerdict weigh(StageEvidence stage) {
    return new BurrEvidence(WITH_RIG).weigh(stage);
  }

  private static Says says(BurrVerdict verdict, Kind kind) {
    return verdict.clues().stream().filter(c -> c.kind() == kind).findFirst().orElseThrow().says();
  }

  @Test
  void everyKindIsLaidOpenOnceWithItsReason() {
    BurrVerdict v = weigh(stage("s", cuts(100, 101, 99, 102)));
    assertThat(v.clues()).extracting(BurrClue::kind).containsExactlyInAnyOrder(Kind.values());
    assertThat(v.clues()).allMatch(c -> c.reason().source().equals(Reason.COMMON_PRACTICE));
  }

  @Test
  void aBurrSeenIsLikelyUntilTheSameLookSaysOtherwise() {
    BurrVerdict seen = weigh(stage("s", cuts(100, 101, 99, 102), "l light burr", "r light none"));
    assertThat(seen.burr()).isEqualTo(Burr.LIKELY);
    assertThat(says(seen, Kind.SIDES)).isEqualTo(Says.BURR);

    BurrVerdict gone =
        weigh(stage("s", cuts(100, 101, 99, 102), "l light burr", "r light none", "l light none"));
    assertThat(gone.burr()).isEqualTo(Burr.NOT_INDICATED);

    BurrVerdict elsewhere =
        weigh(stage("s", cuts(100, 101, 99, 102), "l light burr heel", "l light none tip"));
    assertThat(elsewhere.burr()).isEqualTo(Burr.LIKELY);
  }

  @Test
  void oneKindAloneIsPossible() {
    BurrVerdict v = weigh(stage("s", cuts(100, 101, 99, 102), "b light none", "paper tears heel"));
    assertThat(v.burr()).isEqualTo(Burr.POSSIBLE);
    assertThat(says(v, Kind.PAPER)).isEqualTo(Says.BURR);
    assertThat(says(v, Kind.INSPECTION)).isEqualTo(Says.NO_BURR);
    assertThat(told(v.rule().text()))
        .contains("1 of 6 kinds of evidence points to a burr (thin paper)");
  }

  @Test
  void dullPaperSaysNothingOfABurr() {
    assertThat(says(weigh(stage("s", List.of(), "paper nostart")), Kind.PAPER))
        .isEqualTo(Says.NOTHING);
    assertThat(says(weigh(stage("s", List.of(), "paper clean")), Kind.PAPER))
        .isEqualTo(Says.NO_BURR);
  }

  @Test
  void nothingKnownIsNeitherPossibleNorClean() {
    BurrVerdict v = weigh(stage("s", List.of()));
    assertThat(v.burr()).isEqualTo(Burr.NOT_KNOWN);
    assertThat(weigh(stage("s", List.of(), "b light unsure")).burr()).isEqualTo(Burr.NOT_KNOWN);
    assertThat(told(v.nextCheck()))
        .isEqualTo("inspect the left side with a light, from the heel on");
  }

  @Test
  void whoIsUnsureOfOneSideHasSeenNoDifference() {
    BurrVerdict v = weigh(stage("s", List.of(), "l light none", "r light unsure"));
    assertThat(says(v, Kind.SIDES)).isEqualTo(Says.NOTHING);
    assertThat(v.burr()).isEqualTo(Burr.NOT_KNOWN);
    assertThat(told(v.rule().text())).contains("None of 6 kinds of evidence says anything yet");
    assertThat(told(weigh(stage("s", List.of(), "b light none")).rule().text()))
        .contains("1 of 6 kinds of evidence say something, and none of them points to a burr");
  }

  @Test
  void theNextCheckIsTheCheapestNotYetMade() {
    assertThat(told(weigh(stage("s", List.of(), "l light none")).nextCheck()))
        .startsWith("inspect the right side with a light");
    assertThat(told(weigh(stage("s", List.of(), "b light none")).nextCheck()))
        .startsWith("inspect the left side with a fingertip");
    assertThat(told(weigh(stage("s", List.of(), "b light none", "b f none")).nextCheck()))
        .isEqualTo("cut thin paper from heel to tip");
    assertThat(
            told(
                weigh(
                        stage(
                            "s",
                            List.of(),
                            "b light none",
                            "b f none",
                            "paper clean",
                            "b cotton n"))
                    .nextCheck()))
        .isEqualTo("make two more cuts at fresh spots");
  }

  @Test
  void scatterBeyondTheRigCounts() {
    assertThat(says(weigh(stage("s", cuts(100, 130, 95, 120))), Kind.SCATTER)).isEqualTo(Says.BURR);
    assertThat(says(weigh(stage("s", cuts(100, 103, 97, 101))), Kind.SCATTER))
        .isEqualTo(Says.NO_BURR);
    assertThat(says(weigh(stage("s", cuts(100, 103))), Kind.SCATTER)).isEqualTo(Says.NOTHING);
    BurrVerdict noRig = new BurrEvidence(Judge.plain()).weigh(stage("s", cuts(1, 100, 2, 90)));
    assertThat(says(noRig, Kind.SCATTER)).isEqualTo(Says.NOTHING);
  }

  @Test
  void aSecondCutThatDiffersCounts() {
    StageEvidence bent =
        stage(
            "s",
            List.of(
                cut(120, 10, false),
                cut(101, 10.2, false),
                cut(118, 30, false),
                cut(100, 30, false),
                cut(123, 50, false),
                cut(103, 50.5, false)));
    assertThat(says(weigh(bent), Kind.FIRST_CUT)).isEqualTo(Says.BURR);
    assertThat(says(weigh(stage("s", cuts(100, 120, 90))), Kind.FIRST_CUT)).isEqualTo(Says.NOTHING);
    StageEvidence alike = stage("s", List.of(cut(100, 10, false), cut(90, 10, false)));
    assertThat(says(weigh(alike), Kind.FIRST_CUT)).isEqualTo(Says.NOTHING);
  }

  @Test
  void dipsCountBeyondChance() {
    assertThat(
            says(
                weigh(
                    stage("s", List.of(cut(100, 1, true), cut(101, 9, true), cut(99, 20, false)))),
                Kind.DIPS))
        .isEqualTo(Says.BURR);
    assertThat(
            says(
                weigh(
                    stage("s", List.of(cut(100, 1, true), cut(101, 9, false), cut(99, 20, false)))),
                Kind.DIPS))
        .isEqualTo(Says.NOTHING);
  }

  /** Scatter and dips point to a burr; what the same edge is called hangs on who looked at it. */
  private static final List<StageEvidence.PlacedCut> UNEVEN =
      List.of(cut(100, 10, true), cut(130, 30, true), cut(95, 50, true), cut(120, 70, false));

  @Test
  void twoCleanLooksOfDifferentKindsLeaveItPossibleAtMost() {
    assertThat(weigh(stage("s", UNEVEN)).burr()).isEqualTo(Burr.LIKELY);
    assertThat(weigh(stage("s", UNEVEN, "b light none")).burr()).isEqualTo(Burr.LIKELY);
    assertThat(weigh(stage("s", UNEVEN, "b light none", "b light none")).burr())
        .isEqualTo(Burr.LIKELY);
    assertThat(weigh(stage("s", UNEVEN, "b light none", "l f none")).burr()).isEqualTo(Burr.LIKELY);
    assertThat(weigh(stage("s", UNEVEN, "b light none", "paper clean")).burr())
        .isEqualTo(Burr.POSSIBLE);
    assertThat(weigh(stage("s", UNEVEN, "l light none", "r light none", "b f none")).burr())
        .isEqualTo(Burr.POSSIBLE);
    assertThat(weigh(stage("s", UNEVEN, "b light none", "paper clean", "b f burr")).burr())
        .isEqualTo(Burr.LIKELY);
  }

  @Test
  void aForceThatFellIsSaidToBeNoEvidence() {
    assertThat(told(weigh(stage("s", cuts(100, 101))).rule().text()))
        .contains("A force that fell is no evidence");
  }
}
