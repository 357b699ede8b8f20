package snick.force.budget;

import org.apache.commons.statistics.distribution.NormalDistribution;
import org.apache.commons.statistics.distribution.TDistribution;

/** Coverage factors: JCGM 100:2008, annex G. */
public final class Coverage {
  /** Coverage probability of every expanded uncertainty that is shown. */
  public static final double USUAL_PROBABILITY = 0.95;

  private Coverage() {}

  /**
   * Two-sided factor of Student's t; degrees of freedom are not rounded to an integer.
   *
   * @param probability above 0 and below 1
   * @param degreesOfFreedom above 0, may be infinite
   */
  public static double factor(double probability, double degreesOfFreedom) {
    if (!(probability > 0 && probability < 1)) {
      throw new IllegalArgumentException("coverage probability " + probability + " not in 0 to 1");
    }
    if (!(degreesOfFreedom > 0)) {
      throw new IllegalArgumentException("degrees of freedom " + degreesOfFreedom + " not above 0");
    }
    double tail = (1 - probability) / 2;
    return Double.isInfinite(degreesOfFreedom)
        ? NormalDistribution.of(0, 1).inverseSurvivalProbability(tail)
        : TDistribution.of(degreesOfFreedom).inverseSurvivalProbability(tail);
  }
}
