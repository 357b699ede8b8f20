package snick.verdict.comparison;

import org.apache.commons.statistics.distribution.ChiSquaredDistribution;
import org.apache.commons.statistics.distribution.FDistribution;

/**
 * Scatter of a group against the rig's own repeatability: F test of both variances, or χ² test if
 * the rig's is known without limit.
 *
 * @param ratio group variance over the rig's
 * @param p one-sided: probability of such a ratio or a larger one if the edge were even
 * @param rig the repeatability compared with
 */
public record ScatterAgainstRig(double ratio, double p, RigRepeatability rig) {

  public static ScatterAgainstRig of(double sdGf, int n, RigRepeatability rig) {
    double ratio = sdGf * sdGf / (rig.sdGf() * rig.sdGf());
    double p =
        Double.isInfinite(rig.degreesOfFreedom())
            ? ChiSquaredDistribution.of(n - 1).survivalProbability(ratio * (n - 1))
            : FDistribution.of(n - 1, rig.degreesOfFreedom()).survivalProbability(ratio);
    return new ScatterAgainstRig(ratio, p, rig);
  }

  /** Whether the group scatters more than the rig does. */
  public boolean beyondRig() {
    return p < Comparison.SIGNIFICANCE;
  }
}
