package snick.verdict.statistic;

import org.apache.commons.statistics.distribution.BetaDistribution;

/** Exact interval of a share (C. J. Clopper, E. S. Pearson, Biometrika 26, 1934). */
public final class BinomialInterval {
  private BinomialInterval() {}

  /**
   * 95 % interval of the share behind {@code hits} of {@code trials}.
   *
   * @param trials 1 or more
   */
  public static Interval of(int hits, int trials) {
    double low =
        hits == 0
            ? 0
            : BetaDistribution.of(hits, trials - hits + 1.0).inverseCumulativeProbability(0.025);
    double high =
        hits == trials
            ? 1
            : BetaDistribution.of(hits + 1.0, trials - hits).inverseCumulativeProbability(0.975);
    return new Interval(low, high, 0.95);
  }
}
