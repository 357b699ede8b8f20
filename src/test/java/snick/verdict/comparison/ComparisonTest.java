package snick.verdict.comparison;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static snick.InEnglish.told;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.apache.commons.statistics.inference.AlternativeHypothesis;
import org.apache.commons.statistics.inference.MannWhitneyUTest;
import org.apache.commons.statistics.inference.PValueMethod;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import snick.phrase.NotAccepted;
import snick.verdict.statistic.EffectSize;
import snick.verdict.statistic.NoncentralT;
import snick.verdict.statistic.Permutation;
import snick.verdict.statistic.RankSum;
import snick.verdict.statistic.Ranks;
import snick.verdict.statistic.Readings;
import snick.verdict.statistic.Welch;

class ComparisonTest {
  private static Readings of(double... gf) {
    return Readings.ofGramForce("group", gf);
  }

  @Test
  void refusesWhatCannotBeCompared() {
    assertThatThrownBy(() -> Readings.ofGramForce("as found"))
        .isInstanceOf(NotAccepted.class)
        .hasMessage("as found has no cuts: make at least 2");
    assertThatThrownBy(() -> Judge.plain().compare(Readings.ofGramForce("as found", 90), of(1, 2)))
        .isInstanceOf(NotAccepted.class)
        .hasMessage("as found has 1 cut, at least 2 are needed to know its scatter: make 1 more");
    assertThatThrownBy(() -> Readings.ofGramForce("as found", 90, Double.NaN))
        .hasMessage("as found: value 2 is NaN, not within ±1e13 gf");
    assertThatThrownBy(() -> of(Double.POSITIVE_INFINITY)).isInstanceOf(NotAccepted.class);
    assertThatThrownBy(() -> of(new double[2001])).hasMessageContaining("the limit is 2000");
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, -1, Double.NaN, 1e9})
  void refusesAMarginThatIsNone(double marginGf) {
    assertThatThrownBy(() -> Judge.withMarginGf(marginGf))
        .isInstanceOf(NotAccepted.class)
        .hasMessageContaining("margin " + marginGf + " gf is outside");
  }

  @Test
  void identicalReadingsGiveNoTAndNoNan() {
    Comparison c = Judge.withMarginGf(5).compare(of(100, 100, 100), of(100, 100, 100));

    assertThat(c.tests().welch()).isEmpty();
    assertThat(c.effect()).isEmpty();
    assertThat(c.tests().equivalence()).isEmpty();
    assertThat(c.tests().rankSum().p()).isEqualTo(1);
    assertThat(c.tests().rankSum().hodgesLehmannGf()).isZero();
    assertThat(c.tests().permutation().p()).isEqualTo(1);
    assertThat(c.verdict()).isEqualTo(Change.NO_DIFFERENCE_SHOWN);
    assertThat(c.moreCuts()).isInstanceOf(MoreCuts.NotWorthIt.class);
    assertThat(texts(c)).doesNotContain("NaN");
  }

  @Test
  void groupsWithoutScatterAreJudgedByRanks() {
    Comparison few = Judge.plain().compare(of(100, 100, 100), of(80, 80, 80));
    assertThat(few.decision().decidedBy()).isEqualTo(Decision.DecidedBy.MANN_WHITNEY);
    assertThat(few.tests().rankSum().p()).isCloseTo(0.1, within(1e-12));
    assertThat(few.verdict()).isEqualTo(Change.NO_DIFFERENCE_SHOWN);

    Comparison more = Judge.plain().compare(of(9, 9, 9, 9, 9), of(8, 8, 8, 8, 8));
    assertThat(more.tests().rankSum().p()).isCloseTo(2.0 / 252, within(1e-12));
    assertThat(more.verdict()).isEqualTo(Change.LOWER);
    assertThat(texts(more)).doesNotContain("NaN").contains("as the cuts of each are alike");
  }

  @Test
  void oneSteadyGroupIsStillComparable() {
    Comparison c = Judge.plain().compare(of(100, 100, 100), of(80, 82, 81));
    assertThat(c.tests().welch().orElseThrow().degreesOfFreedom()).isCloseTo(2, within(1e-12));
    assertThat(c.verdict()).isEqualTo(Change.LOWER);
  }

  @ParameterizedTest
  @ValueSource(doubles = {1, 0.9, 1e-3, 1e-9})
  void evenTheTightestGroupsHaveAnEffectSize(double scatterGf) {
    Comparison c =
        Judge.plain().compare(of(100, 100 + scatterGf), of(50, 50 - scatterGf, 50 - scatterGf));
    EffectSize effect = c.effect().orElseThrow();
    assertThat(effect.ci95().holds(effect.hedgesG())).isTrue();
    assertThat(effect.ci95().high()).isNegative();
  }

  @Test
  void intervalOfEffectIsSmoothWhereItsFormChanges() {
    double below = NoncentralT.noncentralityAt(-499.999, 5, 0.025);
    double above = NoncentralT.noncentralityAt(-500.001, 5, 0.025);
    assertThat(above / below).isCloseTo(500.001 / 499.999, within(1e-4));
  }

  @Test
  void aReadingThatStandsOutHandsTheDecisionToRanksAndIsKept() {
    Readings odd = of(100, 101, 99, 100.5, 99.5, 170);
    Comparison c = Judge.plain().compare(odd, of(90, 91, 89, 90.5, 89.5, 90.2));

    assertThat(c.decision().decidedBy()).isEqualTo(Decision.DecidedBy.MANN_WHITNEY);
    assertThat(c.first().n()).isEqualTo(6);
    assertThat(c.first().outlier().orElseThrow().valueGf()).isEqualTo(170);
    assertThat(c.tests().welch().orElseThrow().p()).isGreaterThan(0.05);
    assertThat(c.verdict()).isEqualTo(Change.LOWER);
    assertThat(texts(c)).contains("It is kept in every figure");
  }

  @Test
  void equivalentNeedsAMarginAndEnoughCuts() {
    Readings a = of(72, 75, 71, 78, 75, 74, 80, 73);
    Readings b = of(74, 70, 75, 72, 77, 71, 75, 69);
    assertThat(Judge.plain().compare(a, b).verdict()).isEqualTo(Change.NO_DIFFERENCE_SHOWN);
    assertThat(Judge.withMarginGf(5).compare(a, b).verdict()).isEqualTo(Change.EQUIVALENT);
    assertThat(Judge.withMarginGf(2).compare(a, b).verdict()).isEqualTo(Change.NO_DIFFERENCE_SHOWN);
  }

  @Test
  void aDifferenceWithinTheRigsRepeatabilityIsNotShown() {
    Readings a = of(100, 100.2, 99.8, 100.1);
    Readings b = of(99, 99.2, 98.8, 99.1);
    RigRepeatability coarse = new RigRepeatability(4, 20, "invented study");
    Comparison c = new Judge(OptionalDouble.empty(), Optional.of(coarse)).compare(a, b);

    assertThat(Judge.plain().compare(a, b).verdict()).isEqualTo(Change.LOWER);
    assertThat(c.verdict()).isEqualTo(Change.NO_DIFFERENCE_SHOWN);
    assertThat(c.exceedsRig()).contains(false);
    // 2.0860 times 4 gf times sqrt(2/n) falls below 1 gf only with n of 140 or more.
    assertThat(c.moreCuts()).isInstanceOf(MoreCuts.NotWorthIt.class);
    RigRepeatability finer = new RigRepeatability(0.8, 20, "invented study");
    Comparison nearly = new Judge(OptionalDouble.empty(), Optional.of(finer)).compare(a, b);
    assertThat(nearly.verdict()).isEqualTo(Change.NO_DIFFERENCE_SHOWN);
    // 2.0860 times 0.8 gf times sqrt(1/4 + 1/n) falls below 1 gf with n of 10.
    assertThat(nearly.moreCuts())
        .isInstanceOfSatisfying(
            MoreCuts.InSecond.class, more -> assertThat(more.inSecond()).isEqualTo(6));
    // t(0.975; 20) = 2.0860 (GUM table G.2, rounded 2.09), times 4 gf times sqrt(2/4).
    assertThat(c.rigLimitGf().orElseThrow()).isCloseTo(2.0860 * 4 / Math.sqrt(2), within(1e-3));
  }

  @Test
  void saysHowManyMoreCutsWouldSettleIt() {
    Comparison c = Judge.plain().compare(of(100, 110, 90, 105), of(90, 101, 83, 97));
    assertThat(c.verdict()).isEqualTo(Change.NO_DIFFERENCE_SHOWN);
    assertThat(c.moreCuts())
        .isInstanceOfSatisfying(
            MoreCuts.PerGroup.class, each -> assertThat(each.perGroup()).isBetween(15, 40));
    assertThat(texts(c))
        .contains("cuts in all in each of the two, enough to show a change of 8.50 gf");

    Comparison hopeless = Judge.plain().compare(of(100, 110, 90), of(100.1, 110, 90));
    assertThat(hopeless.moreCuts()).isInstanceOf(MoreCuts.NotWorthIt.class);

    Comparison shown = Judge.plain().compare(of(100, 101, 99), of(50, 51, 49));
    assertThat(shown.moreCuts()).isEqualTo(new MoreCuts.Settled());
  }

  @Test
  void tooFewCutsForAnExactIntervalIsSaid() {
    Comparison c = Judge.plain().compare(of(10, 11), of(12, 13));
    assertThat(c.tests().rankSum().ciGf().confidence()).isCloseTo(2.0 / 3, within(1e-12));
    assertThat(c.tests().rankSum().ciGf().low()).isEqualTo(1);
    assertThat(c.tests().rankSum().ciGf().high()).isEqualTo(3);
    assertThat(texts(c)).contains("is only 67 % sure of its range");
  }

  /** Exact p without ties against Apache Commons Statistics 1.2, an independent count. */
  @Property(tries = 200)
  void exactRanksAgreeWithTheLibrary(
      @ForAll @Size(min = 5, max = 14) List<@IntRange(max = 100_000) Integer> values) {
    double[] distinct = values.stream().distinct().mapToDouble(v -> v).toArray();
    if (distinct.length < 5) {
      return;
    }
    double[] x = Arrays.copyOf(distinct, 2);
    double[] y = Arrays.copyOfRange(distinct, 2, distinct.length);
    MannWhitneyUTest.Result expected =
        MannWhitneyUTest.withDefaults()
            .with(PValueMethod.EXACT)
            .with(AlternativeHypothesis.TWO_SIDED)
            .test(x, y);
    RankSum ours = RankSum.of(Readings.ofGramForce("y", y), Readings.ofGramForce("x", x));
    assertThat(ours.u()).isEqualTo(expected.getStatistic());
    assertThat(ours.p()).isCloseTo(expected.getPValue(), within(1e-12));
  }

  /** With ties: against all relabellings, tried one by one. */
  @Property(tries = 100)
  void conditionalRanksAgreeWithEnumeration(
      @ForAll @Size(min = 4, max = 10) List<@IntRange(max = 5) Integer> values) {
    double[] pooled = values.stream().mapToDouble(v -> v).toArray();
    int m = pooled.length / 3 + 1;
    double[] x = Arrays.copyOf(pooled, m);
    double[] y = Arrays.copyOfRange(pooled, m, pooled.length);
    RankSum ours = RankSum.of(Readings.ofGramForce("y", y), Readings.ofGramForce("x", x));
    assertThat(ours.p()).isCloseTo(enumerated(Ranks.of(x, y)), within(1e-12));
  }

  private static double enumerated(Ranks ranks) {
    double mean = ranks.chosen() * (ranks.count() + 1.0);
    double observed = Math.abs(ranks.sumOfChosen() - mean);
    long all = 0;
    long far = 0;
    for (int set = 0; set < 1 << ranks.count(); set++) {
      if (Integer.bitCount(set) == ranks.chosen()) {
        double sum = 0;
        for (int i = 0; i < ranks.count(); i++) {
          sum += (set >> i & 1) * ranks.doubled()[i];
        }
        all++;
        far += Math.abs(sum - mean) >= observed ? 1 : 0;
      }
    }
    return (double) far / all;
  }

  @Property(tries = 200)
  void swappingTheGroupsMirrorsEverything(
      @ForAll @Size(min = 2, max = 8) List<@IntRange(min = 50, max = 90) Integer> a,
      @ForAll @Size(min = 2, max = 8) List<@IntRange(min = 50, max = 90) Integer> b) {
    Readings first = of(a.stream().mapToDouble(v -> v).toArray());
    Readings second = of(b.stream().mapToDouble(v -> v).toArray());
    Comparison there = Judge.withMarginGf(3).compare(first, second);
    Comparison back = Judge.withMarginGf(3).compare(second, first);

    assertThat(back.differenceGf()).isCloseTo(-there.differenceGf(), within(1e-9));
    assertThat(back.tests().rankSum().p()).isCloseTo(there.tests().rankSum().p(), within(1e-12));
    assertThat(back.tests().rankSum().u() + there.tests().rankSum().u())
        .isEqualTo(a.size() * b.size());
    assertThat(back.tests().rankSum().ciGf().low())
        .isCloseTo(-there.tests().rankSum().ciGf().high(), within(1e-9));
    assertThat(back.tests().permutation().p())
        .isCloseTo(there.tests().permutation().p(), within(1e-12));
    assertThat(there.tests().permutation().p()).isPositive();
    assertThat(back.verdict()).isEqualTo(mirrored(there.verdict()));
    assertThat(texts(there)).doesNotContain("NaN").doesNotContain("Infinity");
  }

  /** Six of the 120 ways to choose three of ten: not below one in twenty, whoever comes first. */
  @Test
  void exactlyOneInTwentyIsNoDifferenceEitherWay() {
    Readings a = of(51, 52, 52, 53, 54, 55, 55);
    Readings b = of(50, 50, 52);
    assertThat(Judge.withMarginGf(3).compare(a, b).tests().rankSum().p()).isEqualTo(0.05);
    assertThat(Judge.withMarginGf(3).compare(b, a).tests().rankSum().p()).isEqualTo(0.05);
    assertThat(Judge.withMarginGf(3).verdict(a, b)).isEqualTo(Change.NO_DIFFERENCE_SHOWN);
    assertThat(Judge.withMarginGf(3).verdict(b, a)).isEqualTo(Change.NO_DIFFERENCE_SHOWN);
  }

  private static Change mirrored(Change change) {
    return switch (change) {
      case LOWER -> Change.HIGHER;
      case HIGHER -> Change.LOWER;
      default -> change;
    };
  }

  @Test
  void permutationCountsTheObservedLabellingDespiteRounding() {
    Readings a = of(0.1, 0.2, 0.3);
    Readings b = of(0.7, 0.8, 0.9);
    assertThat(Permutation.of(a, b).p()).isCloseTo(2.0 / 20, within(1e-15));
    assertThat(Permutation.of(a, b).relabellings()).isEqualTo(20);
  }

  @Test
  void largeGroupsAreRelabelledAtRandomFromAFixedSeed() {
    double[] a = new double[40];
    double[] b = new double[40];
    Arrays.setAll(a, i -> 100 + (i * 37 % 40) / 4.0);
    Arrays.setAll(b, i -> 101.2 + (i * 23 % 40) / 4.0);
    Permutation first = Permutation.of(of(a), of(b));

    assertThat(first.exact()).isFalse();
    assertThat(first.relabellings()).isEqualTo(100_000);
    assertThat(first).isEqualTo(Permutation.of(of(a), of(b)));
    double welch = Welch.of(of(a), of(b)).orElseThrow().p();
    assertThat(first.p()).isCloseTo(welch, within(0.01));
    assertThat(texts(Judge.plain().compare(of(a), of(b))))
        .contains("100000 random ones were tried (permutation test, seed");
  }

  @Test
  void hugeGroupsUseTheNormalApproximation() {
    double[] a = new double[300];
    double[] b = new double[300];
    Arrays.setAll(a, i -> i);
    Arrays.setAll(b, i -> i + 30);
    RankSum ranks = RankSum.of(of(a), of(b));
    assertThat(ranks.method()).isEqualTo(RankSum.Method.NORMAL_APPROXIMATION);
    assertThat(ranks.hodgesLehmannGf()).isEqualTo(30);
    assertThat(ranks.ciGf().holds(30)).isTrue();
  }

  private static String texts(Comparison c) {
    return String.join("\n", c.reasons().stream().map(reason -> told(reason.text())).toList()) + c;
  }
}
