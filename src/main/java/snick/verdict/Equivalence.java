package snick.verdict;

import org.apache.commons.statistics.distribution.TDistribution;

/**
 * Two one-sided tests of |difference| against a margin (D. J. Schuirmann, J. Pharmacokin. Biopharm.
 * 15, 1987), with Welch's standard error and degrees of freedom.
 *
 * @param marginGf largest difference that does not matter, above 0
 * @param pAboveLowerLimit one-sided p of difference &gt; −margin
 * @param pBelowUpperLimit one-sided p of difference &lt; margin
 * @param ci90Gf 90 % interval of the difference; inside ±margin exactly if p is below 0.05
 */
public record Equivalence(
    double marginGf, double pAboveLowerLimit, double pBelowUpperLimit, Interval ci90Gf) {

  static Equivalence of(Welch welch, double marginGf) {
    TDistribution t = TDistribution.of(welch.degreesOfFreedom());
    return new Equivalence(
        marginGf,
        t.survivalProbability((welch.differenceGf() + marginGf) / welch.standardErrorGf()),
        t.cumulativeProbability((welch.differenceGf() - marginGf) / welch.standardErrorGf()),
        welch.intervalGf(0.90));
  }

  /** The larger of both p-values. */
  public double p() {
    return Math.max(pAboveLowerLimit, pBelowUpperLimit);
  }

  /** Whether the difference is shown to be smaller than the margin. */
  public boolean shown() {
    return p() < Comparison.SIGNIFICANCE;
  }
}
