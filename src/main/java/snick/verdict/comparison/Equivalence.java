package snick.verdict.comparison;

import org.apache.commons.statistics.distribution.TDistribution;
import snick.verdict.statistic.Interval;
import snick.verdict.statistic.Welch;

/**
 * Two one-sided tests of |difference| against a margin (D. J. Schuirmann, J. Pharmacokin. Biopharm.
 * 15, 1987), with the standard error and degrees of freedom of Welch's or of the paired test.
 *
 * @param marginGf largest difference that does not matter, above 0
 * @param pAboveLowerLimit one-sided p of difference &gt; −margin
 * @param pBelowUpperLimit one-sided p of difference &lt; margin
 * @param ci90Gf 90 % interval of the difference; inside ±margin exactly if p is below 0.05
 */
public record Equivalence(
    double marginGf, double pAboveLowerLimit, double pBelowUpperLimit, Interval ci90Gf) {

  static Equivalence of(Welch welch, double marginGf) {
    return of(welch.differenceGf(), welch.standardErrorGf(), welch.degreesOfFreedom(), marginGf);
  }

  static Equivalence of(Paired paired, double marginGf) {
    return of(paired.differenceGf(), paired.standardErrorGf(), paired.pairs() - 1.0, marginGf);
  }

  private static Equivalence of(
      double differenceGf, double standardErrorGf, double degreesOfFreedom, double marginGf) {
    TDistribution t = TDistribution.of(degreesOfFreedom);
    double half = t.inverseSurvivalProbability(0.05) * standardErrorGf;
    return new Equivalence(
        marginGf,
        t.survivalProbability((differenceGf + marginGf) / standardErrorGf),
        t.cumulativeProbability((differenceGf - marginGf) / standardErrorGf),
        new Interval(differenceGf - half, differenceGf + half, 0.90));
  }

  /** The larger of both p-values. */
  public double p() {
    return Math.max(pAboveLowerLimit, pBelowUpperLimit);
  }
}
