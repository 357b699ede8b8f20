package snick.verdict.statistic;

import java.util.Optional;
import org.apache.commons.statistics.distribution.TDistribution;

/**
 * Second mean over first, with Fieller's interval (E. C. Fieller, J. R. Stat. Soc. B 16, 1954) at
 * Welch's degrees of freedom.
 *
 * @param value second mean divided by first
 * @param ci95 95 % interval
 */
public record Ratio(double value, Interval ci95) {

  /** Empty if the first mean is not shown to be above 0, so that the interval is not bounded. */
  public static Optional<Ratio> of(Readings first, Readings second, Welch welch) {
    double t = TDistribution.of(welch.degreesOfFreedom()).inverseSurvivalProbability(0.025);
    double below = first.meanGf();
    double above = second.meanGf();
    double belowVariance = first.sdGf() * first.sdGf() / first.count();
    double aboveVariance = second.sdGf() * second.sdGf() / second.count();
    double squared = below * below - t * t * belowVariance;
    if (!(below > 0 && squared > 0)) {
      return Optional.empty();
    }
    double root =
        t
            * Math.sqrt(
                belowVariance * above * above
                    + aboveVariance * below * below
                    - t * t * belowVariance * aboveVariance);
    return Optional.of(
        new Ratio(
            above / below,
            new Interval(
                (above * below - root) / squared, (above * below + root) / squared, 0.95)));
  }
}
