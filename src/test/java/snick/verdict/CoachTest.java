package snick.verdict;

import static org.assertj.core.api.Assertions.assertThat;
import static snick.InEnglish.told;
import static snick.verdict.Notes.cuts;
import static snick.verdict.Notes.stage;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import snick.journal.NextPlace;
import snick.journal.Place;
import snick.verdict.burr.StageEvidence;
import snick.verdict.comparison.Judge;

class CoachTest {
  private static final NextPlace NEXT = new NextPlace.At(new Place.FromHeel(35), 5);
  private static final Coach COACH = new Coach(Judge.withMarginGf(6));

  private static String advice(StageEvidence... stages) {
    return told(COACH.advise(List.of(stages), NEXT));
  }

  @Test
  void followsTheSession() {
    assertThat(advice()).isEqualTo("begin a stage, for example ‘as found’");
    assertThat(advice(stage("a", List.of()))).isEqualTo("make 5 cuts, the next one at 35 mm");
    assertThat(advice(stage("a", cuts(100, 101, 99, 102))))
        .isEqualTo("make 1 more cut, the next one at 35 mm");
    assertThat(advice(stage("a", cuts(100, 101, 99, 102, 98))))
        .isEqualTo("inspect the left side with a light, from the heel on");
    assertThat(advice(stage("a", cuts(100, 101, 99, 102, 98), "l light burr")))
        .isEqualTo("a burr is likely: remove it, then begin a new stage");
    assertThat(advice(stage("a", cuts(100, 101, 99, 102, 98), "b light none")))
        .startsWith("no sign of a burr: take the next sharpening step");
  }

  @Test
  void asksForMoreCutsWhereTheySettleIt() {
    double[] many = new double[40];
    Arrays.setAll(many, i -> 98 + i % 5);
    String line =
        told(
            new Coach(Judge.plain())
                .advise(
                    List.of(
                        stage("a", cuts(many)),
                        stage("b", cuts(97, 100.5, 95, 99.4, 96.1), "b light none")),
                    NEXT));
    assertThat(line).matches("make \\d more cuts? to settle it, the next one at 35 mm");
  }

  @Test
  void stopsOnAPlateau() {
    assertThat(
            advice(
                stage("after strop", cuts(100, 101, 99, 102, 98)),
                stage("again", cuts(100, 101, 99.5, 101, 99), "b light none")))
        .isEqualTo(
            "stop, there is no more to gain that can be measured since ‘after strop’ (plateau)");
  }

  @Test
  void saysWhereTheEdgeWasKeener() {
    assertThat(
            advice(
                stage("strop", cuts(60, 61, 59, 62, 58)),
                stage("steel", cuts(86, 87, 85, 86, 84)),
                stage("strop 2", cuts(86, 85, 87, 86, 85), "b light none")))
        .isEqualTo("the edge was keener at ‘strop’: go back to what was done for it");
  }

  @Test
  void aFullEdgeIsSaid() {
    assertThat(told(COACH.advise(List.of(stage("a", cuts(1, 2))), new NextPlace.Full(1, 2))))
        .isEqualTo("make 3 more cuts; every spot is used, so say which one is cut again");
  }
}
