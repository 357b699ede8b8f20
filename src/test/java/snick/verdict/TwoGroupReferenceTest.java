package snick.verdict;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.apache.commons.statistics.descriptive.Median;
import org.apache.commons.statistics.distribution.FDistribution;
import org.apache.commons.statistics.inference.DataDispersion;
import org.apache.commons.statistics.inference.OneWayAnova;
import org.apache.commons.statistics.inference.TTest;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import snick.verdict.comparison.Comparison;
import snick.verdict.comparison.Equivalence;
import snick.verdict.comparison.GroupFigures;
import snick.verdict.comparison.Judge;
import snick.verdict.statistic.EffectSize;
import snick.verdict.statistic.Permutation;
import snick.verdict.statistic.RankSum;
import snick.verdict.statistic.Ranks;
import snick.verdict.statistic.Ratio;
import snick.verdict.statistic.Readings;
import snick.verdict.statistic.Welch;

/**
 * Every row of two_group_results_R.csv (computed with R 4.2.2: stats, coin, exactRankTests, boot;
 * invented data), except those named in {@link #NOT_OURS}. The file gives before − after; ours is
 * second − first.
 */
class TwoGroupReferenceTest {
  /**
   * Not in the program: bootstrap intervals (depend on R's random numbers), Shapiro–Wilk (no rule
   * uses it), the ratio by logarithms (Fieller's is used), approximations beside the exact forms,
   * the other two definitions of a permutation p-value, the order number behind a limit.
   */
  private static final Set<String> NOT_OURS =
      Set.of(
          "boot_percentile95_lo_R200000_seed1",
          "boot_percentile95_hi_R200000_seed1",
          "boot_bca95_lo_R200000_seed1",
          "boot_bca95_hi_R200000_seed1",
          "shapiro_W_before",
          "shapiro_p_before",
          "shapiro_W_after",
          "shapiro_p_after",
          "geomean_ratio_before_over_after",
          "ratio_ci95_lo_welch_log",
          "ratio_ci95_hi_welch_log",
          "welch_log_p",
          "hedges_J_approx",
          "hedges_g_approxJ",
          "hedges_g_var_large_sample",
          "hedges_g_ci95_lo_normal",
          "hedges_g_ci95_hi_normal",
          "MWU_normal_approx_nocc_p_two_sided",
          "HL_ci_order_index_k",
          "perm_p_one_sided_greater",
          "perm_p_two_sided_doubled");

  private static Readings group(String dataset, String group) {
    return Readings.ofGramForce(
        group,
        Csv.rows("two_group_data.csv").stream()
            .filter(row -> row[0].equals(dataset) && row[1].equals(group))
            .mapToDouble(row -> Double.parseDouble(row[2]))
            .toArray());
  }

  @TestFactory
  Stream<DynamicTest> rowsOfR() {
    return Stream.of("A", "C")
        .flatMap(
            dataset -> {
              Map<String, Double> ours = ours(dataset);
              return Csv.quantities("two_group_results_R.csv", dataset).entrySet().stream()
                  .filter(row -> !NOT_OURS.contains(row.getKey()))
                  .map(
                      row ->
                          DynamicTest.dynamicTest(
                              dataset + " " + row.getKey(),
                              () ->
                                  assertThat(ours.get(row.getKey()))
                                      .isNotNull()
                                      .isCloseTo(row.getValue(), tolerance(row.getValue()))));
            });
  }

  /** The file has 12 digits. */
  private static org.assertj.core.data.Offset<Double> tolerance(double value) {
    return within(1e-9 * Math.max(1e-3, Math.abs(value)));
  }

  @Test
  void everyRowIsCheckedOrNamedAsNotOurs() {
    Set<String> inFile = new TreeSet<>();
    inFile.addAll(Csv.quantities("two_group_results_R.csv", "A").keySet());
    inFile.addAll(Csv.quantities("two_group_results_R.csv", "C").keySet());
    assertThat(inFile).hasSizeGreaterThan(60).containsAll(NOT_OURS);
  }

  private static Map<String, Double> ours(String dataset) {
    Readings before = group(dataset, "before");
    Readings after = group(dataset, "after");
    Comparison c = Judge.plain().compare(before, after);
    Map<String, Double> ours = new LinkedHashMap<>();
    figures(ours, before, "before");
    figures(ours, after, "after");
    welch(ours, c);
    student(ours, before, after);
    ranks(ours, c, before.count() * after.count());
    Ranks pooled = Ranks.of(after.gramForce(), before.gramForce());
    ours.put("MWU_normal_approx_cc_p_two_sided", RankSum.normalP(pooled, c.tests().rankSum().u()));
    permutation(ours, c);
    effect(ours, c, before, after);
    spread(ours, before, after);
    equivalence(ours, before, after);
    return ours;
  }

  private static void figures(Map<String, Double> ours, Readings readings, String name) {
    GroupFigures figures = GroupFigures.of(readings, Optional.empty());
    ours.put("n_" + name, (double) figures.n());
    ours.put("mean_" + name, figures.meanGf());
    ours.put("sd_" + name, figures.sdGf().orElseThrow());
    ours.put("median_" + name, Median.withDefaults().evaluate(readings.gramForce()));
  }

  private static void welch(Map<String, Double> ours, Comparison c) {
    Welch welch = c.tests().welch().orElseThrow();
    ours.put("diff_before_minus_after", -c.differenceGf());
    ours.put("welch_t", -welch.t());
    ours.put("welch_df", welch.degreesOfFreedom());
    ours.put("welch_p_two_sided", welch.p());
    ours.put("welch_ci95_lo", -welch.ci95Gf().high());
    ours.put("welch_ci95_hi", -welch.ci95Gf().low());
    Ratio ratio = c.tests().ratio().orElseThrow();
    ours.put("ratio_of_means", 1 / ratio.value());
    ours.put("fieller95_lo_welchdf", 1 / ratio.ci95().high());
    ours.put("fieller95_hi_welchdf", 1 / ratio.ci95().low());
  }

  private static void student(Map<String, Double> ours, Readings before, Readings after) {
    TTest.Result student =
        TTest.withDefaults()
            .with(DataDispersion.HOMOSCEDASTIC)
            .test(before.gramForce(), after.gramForce());
    double error =
        pooledSdGf(before, after) * Math.sqrt(1.0 / before.count() + 1.0 / after.count());
    double t =
        org.apache.commons.statistics.distribution.TDistribution.of(student.getDegreesOfFreedom())
            .inverseSurvivalProbability(0.025);
    double difference = before.meanGf() - after.meanGf();
    ours.put("student_t", student.getStatistic());
    ours.put("student_df", student.getDegreesOfFreedom());
    ours.put("student_p_two_sided", student.getPValue());
    ours.put("student_ci95_lo", difference - t * error);
    ours.put("student_ci95_hi", difference + t * error);
  }

  private static void ranks(Map<String, Double> ours, Comparison c, int pairs) {
    RankSum ranks = c.tests().rankSum();
    ours.put("MWU_U_after", ranks.u());
    ours.put("MWU_U_before", pairs - ranks.u());
    ours.put("cliffs_delta", 1 - 2 * ranks.u() / pairs);
    ours.put("P(before>after)+half_ties", 1 - ranks.u() / pairs);
    ours.put("MWU_exact_p_two_sided", ranks.p());
    ours.put("MWU_exact_conditional_p_coin", ranks.p());
    ours.put("MWU_exact_p_exactRankTests", ranks.p());
    ours.put("HL_shift_median_of_differences", -ranks.hodgesLehmannGf());
    ours.put("HL_estimate_R", -ranks.hodgesLehmannGf());
    ours.put("HL_ci95_lo_exact", -ranks.ciGf().high());
    ours.put("HL_ci95_hi_exact", -ranks.ciGf().low());
    ours.put("HL_ci95_lo_exactRankTests", -ranks.ciGf().high());
    ours.put("HL_ci95_hi_exactRankTests", -ranks.ciGf().low());
    ours.put("HL_ci_achieved_confidence", ranks.ciGf().confidence());
  }

  private static void permutation(Map<String, Double> ours, Comparison c) {
    Permutation permutation = c.tests().permutation();
    assertThat(permutation.exact()).isTrue();
    ours.put("perm_n_relabellings", (double) permutation.relabellings());
    ours.put("perm_count_abs_ge", permutation.p() * permutation.relabellings());
    ours.put("perm_p_two_sided_abs", permutation.p());
    ours.put("perm_p_coin_oneway_exact", permutation.p());
  }

  private static void effect(
      Map<String, Double> ours, Comparison c, Readings before, Readings after) {
    EffectSize effect = c.effect().orElseThrow();
    double df = before.count() + after.count() - 2;
    double j = EffectSize.smallSampleFactor(df);
    ours.put("pooled_sd", pooledSdGf(before, after));
    ours.put("cohens_d", -effect.cohensD());
    ours.put("hedges_J_exact", j);
    ours.put("hedges_g_exactJ", -effect.hedgesG());
    ours.put("hedges_g_ci95_lo_nct_timesJ", -effect.ci95().high());
    ours.put("hedges_g_ci95_hi_nct_timesJ", -effect.ci95().low());
    ours.put("cohens_d_ci95_lo_nct", -effect.ci95().high() / j);
    ours.put("cohens_d_ci95_hi_nct", -effect.ci95().low() / j);
  }

  private static void spread(Map<String, Double> ours, Readings before, Readings after) {
    double ratio = Math.pow(before.sdGf() / after.sdGf(), 2);
    double upper =
        FDistribution.of(before.count() - 1.0, after.count() - 1.0).survivalProbability(ratio);
    ours.put("F_var_ratio", ratio);
    ours.put("F_var_p_two_sided", 2 * Math.min(upper, 1 - upper));
    OneWayAnova.Result brownForsythe =
        OneWayAnova.withDefaults().test(List.of(fromMedian(before), fromMedian(after)));
    ours.put("brown_forsythe_F", brownForsythe.getStatistic());
    ours.put("brown_forsythe_p", brownForsythe.getPValue());
  }

  private static double[] fromMedian(Readings readings) {
    double median = Median.withDefaults().evaluate(readings.gramForce());
    return java.util.Arrays.stream(readings.gramForce()).map(v -> Math.abs(v - median)).toArray();
  }

  private static void equivalence(Map<String, Double> ours, Readings before, Readings after) {
    for (int margin : new int[] {5, 10}) {
      Comparison c = Judge.withMarginGf(margin).compare(before, after);
      Equivalence e = c.tests().equivalence().orElseThrow();
      Welch welch = c.tests().welch().orElseThrow();
      String row = "TOST_margin" + margin;
      ours.put(row + "_p_lower", e.pBelowUpperLimit());
      ours.put(row + "_p_upper", e.pAboveLowerLimit());
      ours.put(row + "_p", e.p());
      ours.put(row + "_t_lower", (margin - welch.differenceGf()) / welch.standardErrorGf());
      ours.put(row + "_t_upper", (-margin - welch.differenceGf()) / welch.standardErrorGf());
      ours.put("welch_ci90_lo", -e.ci90Gf().high());
      ours.put("welch_ci90_hi", -e.ci90Gf().low());
    }
  }

  private static double pooledSdGf(Readings a, Readings b) {
    double squares =
        (a.count() - 1) * Math.pow(a.sdGf(), 2) + (b.count() - 1) * Math.pow(b.sdGf(), 2);
    return Math.sqrt(squares / (a.count() + b.count() - 2));
  }
}
