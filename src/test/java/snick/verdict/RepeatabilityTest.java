package snick.verdict;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static snick.InEnglish.told;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.apache.commons.statistics.distribution.FDistribution;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import snick.phrase.NotAccepted;
import snick.verdict.comparison.GroupFigures;
import snick.verdict.comparison.RigRepeatability;
import snick.verdict.comparison.ScatterAgainstRig;
import snick.verdict.statistic.Readings;
import snick.verdict.study.CrossedStudy;
import snick.verdict.study.RepeatabilityStudy;

/**
 * Variance components of invented data against varcomp_grr_results_R.csv (computed with R 4.2.2,
 * aov and lme4).
 */
class RepeatabilityTest {
  private static final String RESULTS = "varcomp_grr_results_R.csv";

  private static RepeatabilityStudy study() {
    return RepeatabilityStudy.of(
        Csv.grouped("varcomp_oneway_balanced.csv", 0, 1).entrySet().stream()
            .map(lot -> Readings.ofGramForce(lot.getKey(), lot.getValue()))
            .toList());
  }

  private static List<CrossedStudy.Reading> crossed() {
    return Csv.rows("grr_crossed_own.csv").stream()
        .map(row -> new CrossedStudy.Reading(row[0], row[1], Double.parseDouble(row[3])))
        .toList();
  }

  @TestFactory
  Stream<DynamicTest> oneWay() {
    RepeatabilityStudy s = study();
    Map<String, Double> ours = new LinkedHashMap<>();
    ours.put("N", (double) s.cuts());
    ours.put("groups", (double) s.groups());
    ours.put("grand_mean_unweighted_obs", s.meanGf());
    ours.put("F", s.anova().f());
    ours.put("p", s.anova().p());
    ours.put("ms_within", s.anova().meanSquareWithin());
    ours.put("ms_between", s.anova().f() * s.anova().meanSquareWithin());
    ours.put("ss_within", s.anova().meanSquareWithin() * 15);
    ours.put("ss_between", s.anova().f() * s.anova().meanSquareWithin() * 4);
    ours.put("n0", (s.anova().f() - 1) * s.anova().meanSquareWithin() / square(s.betweenSdGf()));
    ours.put("var_within", s.anova().meanSquareWithin());
    ours.put("var_between_anova", square(s.betweenSdGf()));
    ours.put("sd_within", s.withinSdGf());
    ours.put("sd_between", s.betweenSdGf());
    ours.put("sd_total", s.totalSdGf());
    ours.put("icc1", s.share());
    ours.put("sd_within_ci95_lo", s.withinSdCi95Gf().low());
    ours.put("sd_within_ci95_hi", s.withinSdCi95Gf().high());
    ours.put("icc_ci95_lo", s.shareCi95().low());
    ours.put("icc_ci95_hi", s.shareCi95().high());
    ours.put("se_grand_mean_random_effects", standardErrorGf(s));
    ours.put("reml_mean_lme4", s.meanGf());
    return against("oneway_balanced", ours, 21);
  }

  /** Balanced data: restricted maximum likelihood equals the mean squares, to lme4's tolerance. */
  @Test
  void oneWayAgreesWithRestrictedLikelihood() {
    Map<String, Double> r = Csv.quantities(RESULTS, "oneway_balanced");
    assertThat(square(study().betweenSdGf()))
        .isCloseTo(r.get("reml_var_between_lme4"), within(1e-5));
    assertThat(study().anova().meanSquareWithin())
        .isCloseTo(r.get("reml_var_within_lme4"), within(1e-6));
    assertThat(standardErrorGf(study())).isCloseTo(r.get("reml_se_mean_lme4"), within(1e-6));
  }

  @TestFactory
  Stream<DynamicTest> crossedStudy() {
    CrossedStudy study = CrossedStudy.of(crossed());
    assertThat(study.pooled()).isFalse();
    assertThat(study.components()).isEqualTo(study.table().full());
    Map<String, Double> ours = new LinkedHashMap<>();
    CrossedStudy.Table t = study.table();
    line(ours, "part", t.part());
    line(ours, "operator", t.operator());
    line(ours, "interaction", t.interaction());
    line(ours, "repeatability", t.repeatability());
    ours.put("F_interaction", t.interaction().meanSquare() / t.repeatability().meanSquare());
    ours.put("p_interaction", t.interactionP());
    ours.put("F_part_vs_interaction", t.part().meanSquare() / t.interaction().meanSquare());
    ours.put("F_operator_vs_interaction", t.operator().meanSquare() / t.interaction().meanSquare());
    ours.put("ms_pooled", t.pooledError().meanSquare());
    ours.put("F_part_vs_pooled", t.part().meanSquare() / t.pooledError().meanSquare());
    ours.put("F_operator_vs_pooled", t.operator().meanSquare() / t.pooledError().meanSquare());
    components(ours, "full_", t.full());
    components(ours, "pooled_", t.pooled());
    return against("own_5x3x2", ours, 47);
  }

  private static void line(Map<String, Double> ours, String name, CrossedStudy.Line line) {
    ours.put("ss_" + name, line.squares());
    ours.put("df_" + name, (double) line.df());
    ours.put("ms_" + name, line.meanSquare());
  }

  private static void components(
      Map<String, Double> ours, String prefix, CrossedStudy.Components c) {
    ours.put(prefix + "var_repeatability", c.repeatability());
    ours.put(prefix + "var_operator", c.operator());
    ours.put(prefix + "var_interaction", c.interaction());
    ours.put(prefix + "var_reproducibility", c.reproducibility());
    ours.put(prefix + "var_grr", c.measuring());
    ours.put(prefix + "var_part", c.part());
    ours.put(prefix + "var_total", c.total());
    ours.put(prefix + "EV_sd", Math.sqrt(c.repeatability()));
    ours.put(prefix + "AV_sd", Math.sqrt(c.operator()));
    ours.put(prefix + "INT_sd", Math.sqrt(c.interaction()));
    ours.put(prefix + "GRR_sd", Math.sqrt(c.measuring()));
    ours.put(prefix + "PV_sd", Math.sqrt(c.part()));
    ours.put(prefix + "TV_sd", Math.sqrt(c.total()));
    ours.put(prefix + "pct_GRR_study", 100 * c.measuringShare());
    ours.put(prefix + "pct_GRR_contribution", 100 * c.measuringShare() * c.measuringShare());
    ours.put(prefix + "ndc_unrounded_1.41", c.distinctGroups());
  }

  private static Stream<DynamicTest> against(
      String example, Map<String, Double> ours, int leastRows) {
    Map<String, Double> expected = Csv.quantities(RESULTS, example);
    List<DynamicTest> tests = new ArrayList<>();
    ours.forEach(
        (name, value) ->
            tests.add(
                DynamicTest.dynamicTest(
                    name,
                    () ->
                        assertThat(value)
                            .isCloseTo(
                                expected.get(name),
                                within(2e-10 * Math.max(1e-3, Math.abs(value)))))));
    assertThat(tests).hasSizeGreaterThanOrEqualTo(leastRows);
    return tests.stream();
  }

  @Test
  void interactionIsPooledOnlyIfNothingSpeaksForIt() {
    List<CrossedStudy.Reading> additive = new ArrayList<>();
    double[] noise = {0.3, -0.2, 0.1, -0.3, 0.2, -0.1, 0.25, -0.15};
    for (int i = 0; i < 8; i++) {
      additive.add(
          new CrossedStudy.Reading(
              "p" + i / 4, "o" + i / 2 % 2, 100 + 20 * (i / 4) + 3 * (i / 2 % 2) + noise[i]));
    }
    CrossedStudy study = CrossedStudy.of(additive);
    assertThat(study.table().interactionP()).isGreaterThan(CrossedStudy.POOL_ABOVE);
    assertThat(study.pooled()).isTrue();
    assertThat(study.components().interaction()).isZero();
  }

  @Test
  void smallestShownDifferenceGrowsWithScatterAndFallsWithCuts() {
    RigRepeatability rig = study().rig();
    assertThat(rig.sdGf()).isCloseTo(1.24599357944, within(1e-10));
    assertThat(rig.degreesOfFreedom()).isEqualTo(15);
    assertThat(rig.smallestShownDifferenceGf(20))
        .isLessThan(rig.smallestShownDifferenceGf(5) / 1.9);
    assertThat(told(study().reason().text()))
        .contains("20 cuts in 5 groups: repeatability 1.25 gf");
  }

  @Test
  void scatterAgainstTheRigIsAnFTest() {
    RigRepeatability rig = new RigRepeatability(2, 15, "invented study");
    GroupFigures wide =
        GroupFigures.of(
            Readings.ofGramForce("w", 90, 100, 110, 95, 105), java.util.Optional.of(rig));
    assertThat(wide.scatter().orElseThrow().beyondRig()).isTrue();
    assertThat(wide.scatter().get().p())
        .isCloseTo(FDistribution.of(4, 15).survivalProbability(62.5 / 4), within(1e-12));
    RigRepeatability known = new RigRepeatability(2, Double.POSITIVE_INFINITY, "known");
    assertThat(ScatterAgainstRig.of(2, 5, known).p()).isCloseTo(0.40600584970983794, within(1e-12));
  }

  @Test
  void refusesStudiesThatTellNothing() {
    Readings one = Readings.ofGramForce("L1", 1, 2);
    assertThatThrownBy(() -> RepeatabilityStudy.of(List.of(one)))
        .hasMessage("a repeatability study needs 2 groups or more, not 1");
    Readings flat = Readings.ofGramForce("L1", 5, 5);
    assertThatThrownBy(() -> RepeatabilityStudy.of(List.of(flat, flat)))
        .hasMessageContaining("no group scatters");
    List<CrossedStudy.Reading> lame = new ArrayList<>(crossed());
    lame.remove(3);
    assertThatThrownBy(() -> CrossedStudy.of(lame))
        .isInstanceOf(NotAccepted.class)
        .hasMessage("part 1, operator B has 1 cut: every cell needs the same number, 2 here");
    assertThatThrownBy(() -> CrossedStudy.of(List.of()))
        .hasMessageContaining("needs 2 parts and 2 operators or more, not 0 and 0");
    assertThatThrownBy(() -> new CrossedStudy.Reading("1", "A", Double.NaN))
        .hasMessage("part 1, operator A: NaN is not a force in gf");
    assertThatThrownBy(() -> new RigRepeatability(Double.NaN, 3, "x"))
        .isInstanceOf(NotAccepted.class);
  }

  private static double square(double value) {
    return value * value;
  }

  /** Of the mean, with groups as random. */
  private static double standardErrorGf(RepeatabilityStudy study) {
    return Math.sqrt(study.anova().meanSquareBetween() / study.cuts());
  }
}
