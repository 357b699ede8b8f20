package snick.verdict.burr;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static snick.InEnglish.told;
import static snick.verdict.Notes.after;
import static snick.verdict.Notes.cuts;
import static snick.verdict.Notes.stage;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snick.journal.EdgeDirection;
import snick.journal.Method;
import snick.verdict.comparison.Judge;
import snick.verdict.statistic.BinomialInterval;
import snick.verdict.statistic.Interval;

class CheckTrustTest {
  /**
   * Ends 0 and n in closed form, 1 − 0.025^(1/n); 2 of 10 from the beta quantiles, 0.02521 to
   * 0.55610 (widely tabled, from memory).
   */
  @ParameterizedTest
  @CsvSource({
    "0, 5, 0, 0.5218237501",
    "5, 5, 0.4781762499, 1",
    "2, 10, 0.02521073, 0.55609546",
  })
  void exactBinomialIntervals(int hits, int trials, double low, double high) {
    Interval interval = BinomialInterval.of(hits, trials);
    assertThat(interval.low()).isCloseTo(low, within(1e-8));
    assertThat(interval.high()).isCloseTo(high, within(1e-8));
  }

  private static List<StageEvidence> session(
      double laterGf, EdgeDirection how, int laterGrit, String... looks) {
    return List.of(
        after(EdgeDirection.EDGE_LEADING, 1000, stage("a", cuts(100, 102, 98, 101), looks)),
        after(how, laterGrit, stage("b", cuts(laterGf, laterGf + 2, laterGf - 2, laterGf + 1))));
  }

  private static CheckTrust finger(List<List<StageEvidence>> sessions) {
    return CheckTrust.of(sessions, Judge.plain()).stream()
        .filter(t -> t.method() == Method.FINGERTIP)
        .findFirst()
        .orElseThrow();
  }

  @Test
  void countsWhatAMethodMissedWhereDeburringCannotHaveRefined() {
    List<List<StageEvidence>> sessions = new ArrayList<>();
    sessions.add(session(70, EdgeDirection.EDGE_TRAILING, 1000, "b f none"));
    sessions.add(session(71, EdgeDirection.EDGE_TRAILING, 800, "b f none"));
    sessions.add(session(100, EdgeDirection.EDGE_TRAILING, 1000, "b f none"));
    sessions.add(session(70, EdgeDirection.EDGE_TRAILING, 1000, "b f burr"));
    sessions.add(session(60, EdgeDirection.EDGE_LEADING, 1000, "b f none"));

    CheckTrust finger = finger(sessions);
    assertThat(finger.saidNone()).isEqualTo(3);
    assertThat(finger.missed()).isEqualTo(2);
    assertThat(finger.unclear()).isZero();
    assertThat(finger.notJudged()).isEqualTo(1);
    assertThat(finger.missedShare().orElseThrow()).isEqualTo(BinomialInterval.of(2, 3));
    assertThat(told(finger.reason().text()))
        .contains("fingertip said none: 2 of 3 times a burr was there: 67 %");
  }

  @Test
  void aFallAfterAFinerStepOrOneOfUnknownGrainDoesNotCount() {
    CheckTrust finger =
        finger(
            List.of(
                session(70, EdgeDirection.EDGE_TRAILING, 6000, "b f none"),
                session(70, EdgeDirection.EDGE_TRAILING, 0, "b f none"),
                session(100, EdgeDirection.EDGE_TRAILING, 6000, "b f none")));
    assertThat(finger.saidNone()).isZero();
    assertThat(finger.missedShare()).isEmpty();
    assertThat(finger.unclear()).isEqualTo(2);
    assertThat(finger.notJudged()).isEqualTo(1);
    assertThat(told(finger.reason().text())).contains("by a hidden burr or by refinement");
  }

  @Test
  void aLaterLookByAnotherMethodTells() {
    CheckTrust finger =
        finger(
            List.of(
                session(70, EdgeDirection.EDGE_TRAILING, 6000, "b f none", "l light burr"),
                session(70, EdgeDirection.EDGE_TRAILING, 6000, "l f none", "r light burr"),
                session(70, EdgeDirection.EDGE_TRAILING, 6000, "b light burr", "b f none"),
                session(70, EdgeDirection.EDGE_TRAILING, 6000, "b f none", "b light none"),
                session(70, EdgeDirection.EDGE_TRAILING, 6000, "b f none", "l light none")));
    assertThat(finger.saidNone()).isEqualTo(2);
    assertThat(finger.missed()).isEqualTo(1);
    assertThat(finger.unclear()).isEqualTo(3);
  }

  @Test
  void withoutAStageThatCountsThereIsNoShare() {
    List<CheckTrust> trust =
        CheckTrust.of(List.of(List.of(stage("a", cuts(100, 101), "paper clean"))), Judge.plain());
    assertThat(trust)
        .singleElement()
        .satisfies(
            t -> {
              assertThat(t.missedShare()).isEmpty();
              assertThat(t.notJudged()).isEqualTo(1);
            });
    assertThat(CheckTrust.of(List.of(), Judge.plain())).isEmpty();
  }
}
