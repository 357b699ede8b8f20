package snick.verdict;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Optional;
import org.apache.commons.statistics.distribution.TDistribution;
import org.apache.commons.statistics.inference.DataDispersion;
import org.apache.commons.statistics.inference.TTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snick.verdict.comparison.Change;
import snick.verdict.comparison.Comparison;
import snick.verdict.comparison.Grubbs;
import snick.verdict.comparison.Judge;
import snick.verdict.comparison.Power;
import snick.verdict.statistic.EffectSize;
import snick.verdict.statistic.NoncentralT;
import snick.verdict.statistic.RankSum;
import snick.verdict.statistic.Readings;
import snick.verdict.statistic.Welch;

/** Published examples; the source stands beside each. */
class PublishedComparisonTest {
  private static final double[] PERMEABILITY_X = {
    0.80, 0.83, 1.89, 1.04, 1.45, 1.38, 1.91, 1.64, 0.73, 1.46
  };
  private static final double[] PERMEABILITY_Y = {1.15, 0.88, 0.90, 0.74, 1.21};

  /**
   * Hollander and Wolfe 1973, p. 69, permeability of membranes; data as in R's help page of
   * wilcox.test, figures computed with R 4.2.2.
   */
  @Test
  void rankSumOfHollanderAndWolfe() {
    Comparison c =
        Judge.plain()
            .compare(
                Readings.ofGramForce("y", PERMEABILITY_Y),
                Readings.ofGramForce("x", PERMEABILITY_X));

    assertThat(c.tests().rankSum().u()).isEqualTo(35);
    assertThat(c.tests().rankSum().method()).isEqualTo(RankSum.Method.EXACT);
    assertThat(c.tests().rankSum().p()).isCloseTo(0.254412254412, within(1e-12));
    assertThat(c.tests().rankSum().hodgesLehmannGf()).isCloseTo(0.305, within(1e-12));
    assertThat(c.tests().rankSum().ciGf().low()).isCloseTo(-0.15, within(1e-12));
    assertThat(c.tests().rankSum().ciGf().high()).isCloseTo(0.76, within(1e-12));
    assertThat(c.verdict()).isEqualTo(Change.NO_DIFFERENCE_SHOWN);
  }

  /** NIST/SEMATECH e-Handbook 1.3.5.3, AUTO83B, from its summary figures. */
  @Test
  void twoSampleTOfTheHandbook() {
    TTest.Result pooled =
        TTest.withDefaults()
            .with(DataDispersion.HOMOSCEDASTIC)
            .test(20.14458, 6.41470 * 6.41470, 249, 30.48101, 6.10771 * 6.10771, 79);
    assertThat(pooled.getStatistic()).isCloseTo(-12.62059, within(1e-5));
    assertThat(TDistribution.of(326).inverseSurvivalProbability(0.025))
        .isCloseTo(1.96726752226, within(1e-10));
    // Computed with R 4.2.2.
    double error = Welch.standardError(6.41470, 249, 6.10771, 79);
    assertThat((20.14458 - 30.48101) / error).isCloseTo(-12.9462675657, within(1e-9));
    assertThat(Welch.degreesOfFreedom(6.41470, 249, 6.10771, 79))
        .isCloseTo(136.874990094, within(1e-8));
  }

  /** NIST/SEMATECH e-Handbook 1.3.5.17.1, data of Tietjen and Moore. */
  @Test
  void grubbsOfTheHandbook() {
    Grubbs grubbs =
        Grubbs.of(
                Readings.ofGramForce(
                    "mass spectrometer",
                    199.31,
                    199.53,
                    200.19,
                    200.82,
                    201.92,
                    201.95,
                    202.18,
                    245.57))
            .orElseThrow();
    assertThat(grubbs.valueGf()).isEqualTo(245.57);
    assertThat(grubbs.g()).isCloseTo(2.4687646, within(1e-7));
    assertThat(grubbs.criticalOneSided()).isCloseTo(2.031652, within(1e-6));
    assertThat(grubbs.criticalTwoSided()).isCloseTo(2.1266450872, within(1e-9));
    assertThat(grubbs.flagged()).isTrue();
    assertThat(grubbs.p()).isLessThan(0.05);
  }

  /** Critical values at 5 %, one-sided and two-sided, computed with R 4.2.2. */
  @ParameterizedTest
  @CsvSource({
    "3, 1.15311806, 1.15430485",
    "4, 1.4625, 1.48125",
    "5, 1.67138567, 1.71503731",
    "6, 1.82211964, 1.88714512",
    "7, 1.93813472, 2.01996851",
    "9, 2.10956179, 2.21500422",
    "10, 2.17606839, 2.28995408",
  })
  void grubbsLimits(int n, double oneSided, double twoSided) {
    assertThat(Grubbs.critical(n, 0.05)).isCloseTo(oneSided, within(1e-8));
    assertThat(Grubbs.critical(n, 0.025)).isCloseTo(twoSided, within(1e-8));
  }

  /**
   * Inputs of R's help page of power.t.test, figures computed with R 4.2.2, whose sample sizes come
   * from a root finder with a tolerance of about 1e-4.
   */
  @Test
  void powerOfTheTwoSampleT() {
    assertThat(Power.ofDifference(Math.sqrt(20 / 2.0), 38))
        .isCloseTo(0.868952801692, within(1e-10));
    assertThat(Power.ofDifference(Math.sqrt(22.0210977039 / 2), 2 * 21.0210977039))
        .isCloseTo(0.90, within(2e-6));
    assertThat(Power.ofDifference(0.5 * Math.sqrt(63.7656104441 / 2), 2 * 62.7656104441))
        .isCloseTo(0.80, within(2e-6));
  }

  /**
   * Noncentral t: at noncentrality 0 it is Student's; 1 degree of freedom and t = 0 give Φ(−δ)
   * exactly.
   */
  @Test
  void noncentralTInItsKnownCases() {
    for (double df : new double[] {1, 2.5, 10, 300}) {
      assertThat(new NoncentralT(df, 0).cumulative(1.3))
          .isCloseTo(TDistribution.of(df).cumulativeProbability(1.3), within(1e-12));
      assertThat(new NoncentralT(df, 1).cumulative(0))
          .isCloseTo(0.15865525393145707, within(1e-12));
    }
  }

  /**
   * Plausibility only, common practice, no source: readings known from practice before deburring,
   * after it and after stropping, with a scatter of 8 % made up around them, each differ downward.
   */
  @Test
  void deburringAndStroppingLowerTheForce() {
    Readings burred = around("burred", 157);
    Readings deburred = around("deburred", 89);
    Readings stropped = around("stropped", 55);
    assertThat(Judge.plain().compare(burred, deburred).verdict()).isEqualTo(Change.LOWER);
    assertThat(Judge.plain().compare(deburred, stropped).verdict()).isEqualTo(Change.LOWER);
    assertThat(Judge.plain().compare(stropped, burred).verdict()).isEqualTo(Change.HIGHER);
  }

  private static Readings around(String name, double centreGf) {
    return Readings.ofGramForce(
        name, centreGf * 0.90, centreGf * 0.97, centreGf, centreGf * 1.03, centreGf * 1.10);
  }

  @Test
  void intervalsOfEffectAgreeWithTheSign() {
    Comparison c = Judge.plain().compare(around("a", 100), around("b", 60));
    Optional<EffectSize> effect = c.effect();
    assertThat(effect.orElseThrow().hedgesG()).isNegative();
    assertThat(effect.get().ci95().holds(effect.get().hedgesG())).isTrue();
  }
}
