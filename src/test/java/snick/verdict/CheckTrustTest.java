package snick.verdict;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
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

  private static List<StageEvidence> session(String look, double laterGf, EdgeDirection how) {
    return List.of(
        stage("a", cuts(100, 102, 98, 101), look),
        after(how, stage("b", cuts(laterGf, laterGf + 2, laterGf - 2, laterGf + 1))));
  }

  @Test
  void countsWhatAMethodMissed() {
    List<List<StageEvidence>> sessions = new ArrayList<>();
    sessions.add(session("b f none", 70, EdgeDirection.EDGE_TRAILING));
    sessions.add(session("b f none", 71, EdgeDirection.EDGE_TRAILING));
    sessions.add(session("b f none", 100, EdgeDirection.EDGE_TRAILING));
    sessions.add(session("b f burr", 70, EdgeDirection.EDGE_TRAILING));
    sessions.add(session("b f none", 60, EdgeDirection.EDGE_LEADING));
    sessions.add(session("b light none", 100, EdgeDirection.EDGE_TRAILING));

    List<CheckTrust> trust = CheckTrust.of(sessions, Judge.plain());

    assertThat(trust)
        .extracting(CheckTrust::method)
        .containsExactly(Method.RAKING_LIGHT, Method.FINGERTIP);
    CheckTrust finger = trust.get(1);
    assertThat(finger.saidNone()).isEqualTo(3);
    assertThat(finger.missed()).isEqualTo(2);
    assertThat(finger.notJudged()).isEqualTo(1);
    assertThat(finger.missedShare().orElseThrow()).isEqualTo(BinomialInterval.of(2, 3));
    assertThat(finger.reason().text())
        .contains("fingertip said none: 2 of 3 times the force then fell beyond scatter: 67 %");
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
