package snick.cut;

/**
 * Force at the break as far as the samples tell it.
 *
 * @param forceCounts estimate, counts above zero
 * @param uncertaintyCounts its standard uncertainty, counts
 * @param breakTime instant of the break, the filter's delay included, periods
 * @param slopeCountsPerPeriod loading rate before the break, counts per period
 * @param tremorNoises strength of tremor, rms, noises
 */
record BreakEstimate(
    double forceCounts,
    double uncertaintyCounts,
    double breakTime,
    double slopeCountsPerPeriod,
    double tremorNoises) {
  BreakEstimate withUncertainty(double force, double uncertainty) {
    return new BreakEstimate(force, uncertainty, breakTime, slopeCountsPerPeriod, tremorNoises);
  }
}
