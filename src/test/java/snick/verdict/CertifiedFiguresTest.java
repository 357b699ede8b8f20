package snick.verdict;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.commons.statistics.distribution.TDistribution;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snick.verdict.comparison.GroupFigures;
import snick.verdict.statistic.Anova;
import snick.verdict.statistic.Readings;
import snick.verdict.statistic.StraightLine;
import snick.verdict.study.RepeatabilityStudy;

/**
 * NIST Statistical Reference Datasets, certified values; tolerances are what double precision can
 * reach on the decimal inputs.
 */
class CertifiedFiguresTest {
  private static Percentage relative(double share) {
    return Percentage.withPercentage(100 * share);
  }

  @ParameterizedTest
  @CsvSource({
    "michelso, 1e-11",
    "mavro, 1e-10",
    "lew, 1e-12",
    "numacc1, 1e-14",
    "numacc2, 1e-11",
    "numacc3, 1e-9",
    "numacc4, 1e-8",
  })
  void univariate(String set, double tolerance) {
    GroupFigures figures =
        GroupFigures.of(
            Readings.ofGramForce(set, Csv.column("strd_" + set + ".csv", 0)), Optional.empty());

    assertThat(figures.n()).isEqualTo((int) certified(set, "mean", 1));
    assertThat(figures.meanGf()).isCloseTo(certified(set, "mean", 3), relative(1e-14));
    assertThat(figures.sdGf().orElseThrow())
        .isCloseTo(certified(set, "sd", 3), relative(tolerance));
  }

  private static double certified(String set, String quantity, int column) {
    return Csv.rows("strd_univariate_certified.csv").stream()
        .filter(row -> row[0].equals(set) && row[2].equals(quantity))
        .mapToDouble(row -> Double.parseDouble(row[column]))
        .findFirst()
        .orElseThrow();
  }

  @ParameterizedTest
  @CsvSource({"SiRstv, 1e-12", "AtmWtAg, 1e-8", "SmLs01, 1e-12", "SmLs04, 1e-8"})
  void anova(String set, double tolerance) {
    check(set, List.copyOf(Csv.grouped("strd_" + set + ".csv", 0, 1).values()), tolerance);
  }

  /**
   * SmLs07 is SmLs01 with thirteen leading digits: 1 + x becomes 10¹² + x. A double there holds
   * steps of 1.2·10⁻⁴ of a scatter of 0.1, so three to four digits can be had of the fifteen.
   */
  @Test
  void anovaWithThirteenLeadingDigits() {
    BigDecimal shift = new BigDecimal("999999999999");
    List<double[]> groups =
        Csv.grouped("strd_SmLs01.csv", 0, 1).values().stream()
            .map(
                group ->
                    java.util.Arrays.stream(group)
                        .map(v -> BigDecimal.valueOf(v).add(shift).doubleValue())
                        .toArray())
            .toList();
    check("SmLs07", groups, 1e-3);
    RepeatabilityStudy study =
        RepeatabilityStudy.of(
            groups.stream().map(group -> Readings.ofGramForce("a group", group)).toList());
    assertThat(study.anova().f()).isCloseTo(21, relative(1e-3));
    assertThat(study.withinSdGf()).isCloseTo(0.1, relative(1e-3));
    assertThat(study.meanGf()).isCloseTo(1_000_000_000_000.4, relative(1e-15));
  }

  private static void check(String set, List<double[]> groups, double tolerance) {
    Map<String, Double> certified =
        Csv.rows("strd_anova_certified.csv").stream()
            .filter(row -> row[0].equals(set) && !row[5].startsWith("("))
            .collect(
                java.util.stream.Collectors.toMap(
                    row -> row[4], row -> Double.parseDouble(row[5])));
    Anova anova = Anova.of(groups);

    assertThat(anova.squaresBetween()).isCloseTo(certified.get("ss_between"), relative(tolerance));
    assertThat(anova.squaresWithin()).isCloseTo(certified.get("ss_within"), relative(tolerance));
    assertThat(anova.meanSquareBetween())
        .isCloseTo(certified.get("ms_between"), relative(tolerance));
    assertThat(anova.meanSquareWithin()).isCloseTo(certified.get("ms_within"), relative(tolerance));
    assertThat(anova.f()).isCloseTo(certified.get("F"), relative(tolerance));
    assertThat(Math.sqrt(anova.meanSquareWithin()))
        .isCloseTo(certified.get("resid_sd"), relative(tolerance));
    assertThat(anova.squaresBetween() / (anova.squaresBetween() + anova.squaresWithin()))
        .isCloseTo(certified.get("R2"), relative(tolerance));
  }

  /** NIST/SEMATECH e-Handbook 7.4.3.3, resistors; five digits of F and p computed with R 4.2.2. */
  @Test
  void resistors() {
    Anova anova =
        Anova.of(
            List.of(
                new double[] {6.9, 5.4, 5.8, 4.6, 4.0},
                new double[] {8.3, 6.8, 7.8, 9.2, 6.5},
                new double[] {8.0, 10.5, 8.1, 6.9, 9.3}));
    assertThat(anova.squaresBetween()).isCloseTo(27.897, within(5e-4));
    assertThat(anova.squaresWithin()).isCloseTo(17.452, within(5e-4));
    assertThat(anova.f()).isCloseTo(9.59111, within(5e-6));
    assertThat(anova.p()).isCloseTo(0.0032482, within(5e-8));
    double half =
        TDistribution.of(12).inverseSurvivalProbability(0.025)
            * Math.sqrt(anova.meanSquareWithin() * 2 / 5);
    assertThat(half).isCloseTo(1.663, within(2e-3));
  }

  /** NIST StRD linear regression, Norris. */
  @Test
  void straightLineThroughNorris() {
    StraightLine line = StraightLine.through(column("x"), column("y"));
    assertThat(line.intercept()).isCloseTo(-0.262323073774029, relative(1e-10));
    assertThat(line.slope()).isCloseTo(1.00211681802045, relative(1e-10));
    assertThat(Math.sqrt(line.interceptVariance())).isCloseTo(0.232818234301152, relative(1e-10));
    assertThat(Math.sqrt(line.slopeVariance())).isCloseTo(0.429796848199937E-03, relative(1e-10));
    assertThat(line.residualSd()).isCloseTo(0.884796396144373, relative(1e-10));
    assertThat(line.degreesOfFreedom()).isEqualTo(34);
  }

  private static double[] column(String name) {
    return Csv.column("strd_norris.csv", Csv.header("strd_norris.csv").indexOf(name));
  }
}
