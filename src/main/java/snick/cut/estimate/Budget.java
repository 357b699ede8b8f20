package snick.cut.estimate;

/**
 * Standard uncertainties of a force at the break by cause, counts, none negative; calibration
 * apart.
 *
 * @param courseCounts noise and the hand's motion, carried on to the break
 * @param backtestCounts earlier readings came otherwise than those before had led to expect, or
 *     ways in which the loading may have gone on disagree
 * @param instantCounts the instant of the break: noise, sampling and ringing in the fall's area
 * @param partingCounts how long the parting took, and by what the fixture lags under load and
 *     after: loading rate by time
 * @param zeroCounts zero under the load, between the rest before and the rest after
 */
public record Budget(
    double courseCounts,
    double backtestCounts,
    double instantCounts,
    double partingCounts,
    double zeroCounts) {
  /** The same with what is not known of zero. */
  public Budget withZero(double counts) {
    return new Budget(courseCounts, backtestCounts, instantCounts, partingCounts, counts);
  }

  /** All together, counts. */
  public double standardUncertaintyCounts() {
    return Math.hypot(Math.hypot(handCounts(), speedCounts()), zeroCounts);
  }

  /** What a steadier hand would lessen, counts. */
  public double handCounts() {
    return Math.hypot(courseCounts, backtestCounts);
  }

  /** What slower loading, a stiffer fixture or a faster rate would lessen, counts. */
  public double speedCounts() {
    return Math.hypot(instantCounts, partingCounts);
  }
}
