package snick.cut;

import java.util.OptionalInt;

/**
 * Force at the break as far as the samples tell it.
 *
 * @param forceCounts estimate, counts above zero
 * @param uncertaintyCounts its standard uncertainty, counts
 * @param breakTime instant of the break, the filter's delay included, periods
 * @param slopeCountsPerPeriod loading rate before the break, counts per period
 * @param tremorCounts strength of tremor, rms, counts
 * @param leftOut index of a sample left out as an outlier
 */
record BreakEstimate(
    double forceCounts,
    double uncertaintyCounts,
    double breakTime,
    double slopeCountsPerPeriod,
    double tremorCounts,
    OptionalInt leftOut) {
  BreakEstimate withUncertainty(double force, double uncertainty) {
    return new BreakEstimate(
        force, uncertainty, breakTime, slopeCountsPerPeriod, tremorCounts, leftOut);
  }

  BreakEstimate withoutSample(int index) {
    return new BreakEstimate(
        forceCounts,
        uncertaintyCounts,
        breakTime,
        slopeCountsPerPeriod,
        tremorCounts,
        OptionalInt.of(index));
  }
}
