package snick.verdict.comparison;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static snick.InEnglish.told;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;
import snick.verdict.statistic.Readings;

class PairedTest {
  /**
   * Student's own example, hours of sleep gained with two drugs by ten people (Biometrika 6, 1908,
   * R's data set sleep; values from memory): mean difference 1.58, t = 4.0621, p = 0.002833.
   */
  private static final double[] DRUG_1 = {0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0};

  private static final double[] DRUG_2 = {1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4};

  /**
   * Heights of cross- and self-fertilised plants in pairs, eighths of an inch (Darwin 1876, as used
   * by Fisher, The Design of Experiments; values from memory): t = 2.148, p = 0.0497.
   */
  private static final int[] PLANTS = {49, -67, 8, 16, 6, 23, 28, 41, 14, 29, 56, 24, 75, 60, -48};

  private static double[] places(int count) {
    return IntStream.range(0, count).mapToDouble(i -> 10.0 * i).toArray();
  }

  private static Readings readings(double... gf) {
    return Readings.ofGramForce("s", gf).at(places(gf.length));
  }

  @Test
  void studentsOwnExample() {
    Paired paired = Paired.of(readings(DRUG_1), readings(DRUG_2)).orElseThrow();
    assertThat(paired.differenceGf()).isCloseTo(1.58, within(1e-12));
    assertThat(paired.t()).isCloseTo(4.0621, within(5e-5));
    assertThat(paired.p()).isCloseTo(0.002833, within(5e-7));
    assertThat(paired.ci95Gf().low()).isCloseTo(0.7001, within(5e-5));
    assertThat(paired.ci95Gf().high()).isCloseTo(2.4599, within(5e-5));
  }

  @Test
  void darwinsPlants() {
    double[] difference = IntStream.of(PLANTS).mapToDouble(i -> i).toArray();
    Paired paired = Paired.of(readings(new double[15]), readings(difference)).orElseThrow();
    assertThat(paired.t()).isCloseTo(2.148, within(5e-4));
    assertThat(paired.p()).isCloseTo(0.0497, within(5e-5));
  }

  @Test
  void placesAloneSettleWhetherPairsDecide() {
    Readings a = Readings.ofGramForce("a", 90, 120, 100, 130, 95).at(10, 30, 50, 70, 90);
    Readings b = Readings.ofGramForce("b", 84, 115, 93, 126, 88).at(90.4, 70, 49.6, 30, 10);
    assertThat(Judge.plain().compare(a, b).decision().decidedBy())
        .isEqualTo(Decision.DecidedBy.PAIRED_T);
    assertThat(Paired.of(a, b.withoutPlaces())).isEmpty();
    assertThat(Paired.of(a, b.at(90, 70, 50, 33, 10)))
        .hasValueSatisfying(p -> assertThat(p.pairs()).isEqualTo(4));
    assertThat(Paired.of(a, b.at(90, 70, 52, 33, 10))).isEmpty();
    assertThat(Paired.of(a.first(3), b.first(3))).isEmpty();
  }

  @Test
  void aPlaceCutTwiceCountsWithItsMean() {
    Readings a = Readings.ofGramForce("a", 90, 120, 100, 130).at(10, 30, 50, 70);
    Readings b = Readings.ofGramForce("b", 80, 84, 115, 93, 126).at(10, 10.5, 30, 50, 70);
    Paired paired = Paired.of(a, b).orElseThrow();
    assertThat(paired.pairs()).isEqualTo(4);
    assertThat(paired.differenceGf()).isCloseTo((-8 - 5 - 7 - 4) / 4.0, within(1e-12));
  }

  @Test
  void aPairThatStandsOutLeavesItToRanks() {
    Readings a = readings(100, 101, 99, 102, 98, 100, 101, 99);
    Readings b = readings(90, 92, 88, 93, 87, 91, 90, 10);
    Comparison c = Judge.plain().compare(a, b);
    assertThat(c.decision().decidedBy()).isEqualTo(Decision.DecidedBy.SIGNED_RANKS);
    assertThat(c.decision().p()).isCloseTo(2 / 256.0, within(0.01));
    assertThat(c.verdict()).isEqualTo(Change.LOWER);
  }

  @Test
  void equivalenceIsShownByPlace() {
    Readings a = readings(90, 120, 100, 130, 95);
    Readings b = readings(91, 119, 101, 130, 94);
    assertThat(Judge.withMarginGf(5).verdict(a, b)).isEqualTo(Change.EQUIVALENT);
    assertThat(Judge.withMarginGf(5).verdict(a.withoutPlaces(), b.withoutPlaces()))
        .isEqualTo(Change.NO_DIFFERENCE_SHOWN);
  }

  @Test
  void aPlannedNumberIsToldAndKept() {
    Judge planned = new Judge(OptionalDouble.empty(), Optional.empty(), OptionalInt.of(6));
    Readings a = Readings.ofGramForce("a", 100, 104, 97, 101, 99, 103, 50);
    Readings b = Readings.ofGramForce("b", 92, 95, 90, 96, 91, 94, 500);
    Comparison early = planned.compare(a.first(4), b.first(4));
    assertThat(early.decision().p()).isBetween(0.001, 0.05);
    assertThat(early.verdict()).isEqualTo(Change.NO_DIFFERENCE_SHOWN);
    assertThat(early.moreCuts()).isEqualTo(new MoreCuts.PerGroup(6, Phrase.of("more.as_planned")));
    assertThat(early.reasons()).anyMatch(r -> told(r.text()).contains("early look: 4 and 4 of 6"));
    Comparison whole = planned.compare(a, b);
    assertThat(whole.verdict()).isEqualTo(Change.LOWER);
    assertThat(whole.second().n()).isEqualTo(6);
    assertThat(whole.reasons())
        .anyMatch(r -> told(r.text()).contains("2 made after them are left out"));
    assertThat(Judge.plain().compare(a, b).reasons())
        .anyMatch(r -> told(r.text()).contains("a number of cuts fixed before the first one"));
    assertThatThrownBy(() -> new Judge(OptionalDouble.empty(), Optional.empty(), OptionalInt.of(1)))
        .isInstanceOf(NotAccepted.class);
  }
}
