package snick.verdict;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.function.Function;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snick.verdict.SimulatedEdge.Brings;
import snick.verdict.burr.BurrVerdict.Burr;
import snick.verdict.comparison.Change;
import snick.verdict.comparison.Comparison;
import snick.verdict.comparison.Judge;
import snick.verdict.statistic.Readings;

/** Error rates of the verdicts on simulated cuts, from fixed seeds. */
class SimulatedOperatorsTest {
  private static final int TRIALS = 4000;

  private static double share(
      int trials, Change sought, Judge judge, Function<Integer, Readings[]> make) {
    int hits = 0;
    for (int i = 0; i < trials; i++) {
      Readings[] pair = make.apply(i);
      hits += judge.verdict(pair[0], pair[1]) == sought ? 1 : 0;
    }
    return (double) hits / trials;
  }

  private static double falseDifferences(Judge judge, Function<Integer, Readings[]> make) {
    int wrong = 0;
    for (int i = 0; i < TRIALS; i++) {
      Readings[] pair = make.apply(i);
      Change verdict = judge.verdict(pair[0], pair[1]);
      wrong += verdict == Change.LOWER || verdict == Change.HIGHER ? 1 : 0;
    }
    return (double) wrong / TRIALS;
  }

  @ParameterizedTest
  @CsvSource({"5, 5", "3, 3", "4, 8", "2, 8", "3, 10"})
  void withoutADifferenceNoneIsShownInNineteenOfTwenty(int n1, int n2) {
    SimulatedEdge edge = new SimulatedEdge(11);
    double wrong =
        falseDifferences(
            Judge.plain(),
            i ->
                new Readings[] {
                  edge.readings("a", n1, 100, SimulatedEdge.REALISTIC_SCATTER),
                  edge.readings("b", n2, 100, SimulatedEdge.REALISTIC_SCATTER)
                });
    assertThat(wrong).isBetween(0.005, 0.05);
  }

  @Test
  void neitherDoSlipsNorSkewNorTiesShowOne() {
    SimulatedEdge edge = new SimulatedEdge(12);
    assertThat(
            falseDifferences(
                Judge.plain(),
                i ->
                    new Readings[] {
                      edge.withSlips("a", 6, 100, 0.08), edge.withSlips("b", 6, 100, 0.08)
                    }))
        .isBetween(0.001, 0.05);
    assertThat(
            falseDifferences(
                Judge.plain(),
                i ->
                    new Readings[] {
                      edge.skewedAndRounded("a", 5, 60, 0.08),
                      edge.skewedAndRounded("b", 5, 60, 0.08)
                    }))
        .isBetween(0.005, 0.05);
  }

  @Test
  void aDropOfAFifthIsShownWithFiveCutsAStage() {
    SimulatedEdge edge = new SimulatedEdge(13);
    Judge judge = new Judge(OptionalDouble.empty(), Optional.of(SimulatedEdge.rig()));
    for (Judge each : new Judge[] {Judge.plain(), judge}) {
      double shown =
          share(
              1000,
              Change.LOWER,
              each,
              i ->
                  new Readings[] {
                    edge.readings("a", 5, 100, SimulatedEdge.REALISTIC_SCATTER),
                    edge.readings("b", 5, 80, SimulatedEdge.REALISTIC_SCATTER)
                  });
      assertThat(shown).isGreaterThanOrEqualTo(0.80);
    }
  }

  @Test
  void aDifferenceAtTheMarginIsCalledEquivalentInAtMostOneOfTwenty() {
    SimulatedEdge edge = new SimulatedEdge(14);
    double wrong =
        share(
            2000,
            Change.EQUIVALENT,
            Judge.withMarginGf(10),
            i ->
                new Readings[] {edge.readings("a", 8, 100, 0.05), edge.readings("b", 8, 90, 0.05)});
    assertThat(wrong).isBetween(0.01, 0.05);
  }

  @Test
  void intervalsHoldTheTruthAsOftenAsTheySay() {
    SimulatedEdge edge = new SimulatedEdge(15);
    int welch = 0;
    int shift = 0;
    for (int i = 0; i < 1000; i++) {
      Comparison c =
          Judge.plain().compare(edge.readings("a", 6, 100, 0.08), edge.readings("b", 7, 85, 0.08));
      welch += c.tests().welch().orElseThrow().ci95Gf().holds(-15) ? 1 : 0;
      shift += c.tests().rankSum().ciGf().holds(-15) ? 1 : 0;
    }
    assertThat(welch).isBetween(930, 970);
    assertThat(shift).isBetween(930, 985);
  }

  @Test
  void burrEvidenceSeparatesBurredFromCleanEdges() {
    for (Brings brings : Brings.values()) {
      Map<Burr, Double> burred = BurrErrorRates.shares(true, brings, 1000);
      Map<Burr, Double> clean = BurrErrorRates.shares(false, brings, 1000);
      assertThat(burred.get(Burr.NOT_INDICATED)).isLessThan(0.25);
      assertThat(clean.get(Burr.LIKELY)).isLessThan(0.15);
      assertThat(burred.get(Burr.LIKELY)).isGreaterThan(3 * clean.get(Burr.LIKELY));
      assertThat(clean.get(Burr.NOT_INDICATED)).isGreaterThan(3 * burred.get(Burr.NOT_INDICATED));
    }
    Map<Burr, Double> both = BurrErrorRates.shares(true, Brings.BOTH, 1000);
    assertThat(both.get(Burr.LIKELY)).isGreaterThan(0.8);
    assertThat(both.get(Burr.NOT_INDICATED)).isLessThan(0.05);
  }

  /** Looks from 3 to 12 cuts; more in the bench {@code snick.verdict.VerdictErrorRates}. */
  @Test
  void aPlannedNumberKeepsTheErrorHoweverOftenOneLooks() {
    assertThat(VerdictErrorRates.looked(3, OptionalInt.empty(), 600)).isBetween(0.10, 0.22);
    assertThat(VerdictErrorRates.looked(3, OptionalInt.of(12), 600)).isBetween(0.02, 0.08);
    assertThat(VerdictErrorRates.rigPlateau(3, OptionalInt.empty(), 600)).isGreaterThan(0.25);
    assertThat(VerdictErrorRates.rigPlateau(3, OptionalInt.of(12), 600)).isLessThan(0.08);
  }

  /** Places differ by 20 gf, cuts at one by 4 gf, six places, a fall of 8 gf. */
  @Test
  void theSamePlacesShowWhatForgottenOnesHide() {
    assertThat(VerdictErrorRates.byPlace(true, 8, 1000)).isBetween(0.72, 0.86);
    assertThat(VerdictErrorRates.byPlace(false, 8, 1000)).isLessThan(0.1);
    assertThat(VerdictErrorRates.byPlace(true, 0, 2000)).isBetween(0.03, 0.065);
  }

  @Test
  void theErrorRatesCanBePrinted() {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    BurrErrorRates.print(new PrintStream(out, true, StandardCharsets.UTF_8), 50);
    assertThat(out.toString(StandardCharsets.UTF_8).lines()).hasSize(8);
  }
}
