package snick.cut.estimate;

/**
 * The force at the break and its uncertainty, term by term.
 *
 * @param forceCounts estimate, counts above zero
 * @param instantSeconds equal-area instant of the fall, s, in the loading's time
 * @param loadingRateCountsPerSecond slope of the loading before the break, counts/s
 * @param motionCounts strength of the hand's motion beside pressing, rms, counts
 * @param budget what makes the uncertainty
 */
public record ForceAtBreak(
    double forceCounts,
    double instantSeconds,
    double loadingRateCountsPerSecond,
    double motionCounts,
    Budget budget) {

  /**
   * Standard uncertainties of the estimate by cause, counts, none negative.
   *
   * @param courseCounts noise and the hand's motion, carried on to the break
   * @param backtestCounts earlier readings came otherwise than those before had led to expect, or
   *     hypotheses disagree
   * @param instantCounts the instant of the break: noise, sampling and ringing in the area
   * @param partingCounts how long the parting took, and by what the fixture lags under load and
   *     after: loading rate by time
   */
  public record Budget(
      double courseCounts, double backtestCounts, double instantCounts, double partingCounts) {
    /** All together, counts. */
    public double standardUncertaintyCounts() {
      return Math.sqrt(
          courseCounts * courseCounts
              + backtestCounts * backtestCounts
              + instantCounts * instantCounts
              + partingCounts * partingCounts);
    }
  }
}
