package snick.verdict.comparison;

import org.apache.commons.statistics.distribution.TDistribution;
import snick.phrase.NotAccepted;

/**
 * What the rig itself scatters: repeated cuts under the same conditions (JCGM 200:2012, 2.21), from
 * a repeatability study on a reference edge.
 *
 * @param sdGf standard deviation of single cuts, gf, above 0
 * @param degreesOfFreedom of that figure, 1 or more
 * @param study where it comes from
 */
public record RigRepeatability(double sdGf, double degreesOfFreedom, String study) {
  public RigRepeatability {
    if (!(sdGf > 0 && sdGf <= 1e6)) {
      throw new NotAccepted("refused.rig_repeatability", "sd", sdGf);
    }
    if (!(degreesOfFreedom >= 1)) {
      throw new NotAccepted("refused.rig_repeatability_freedom", "n", degreesOfFreedom);
    }
  }

  /**
   * Difference of two means that the rig's scatter alone exceeds in 5 % of comparisons, gf: t times
   * the standard error.
   *
   * @param n1 cuts in the first group, 1 or more
   * @param n2 cuts in the second group, 1 or more
   */
  public double criticalDifferenceGf(int n1, int n2) {
    double t = TDistribution.of(degreesOfFreedom).inverseSurvivalProbability(0.025);
    return t * sdGf * Math.sqrt(1.0 / n1 + 1.0 / n2);
  }

  /**
   * Smallest true difference that {@code n} cuts a group show with 80 % probability at 5 % error,
   * gf: critical difference plus the 80 % point of t.
   */
  public double smallestShownDifferenceGf(int n) {
    double t80 = TDistribution.of(degreesOfFreedom).inverseSurvivalProbability(0.20);
    return criticalDifferenceGf(n, n) + t80 * sdGf * Math.sqrt(2.0 / n);
  }
}
