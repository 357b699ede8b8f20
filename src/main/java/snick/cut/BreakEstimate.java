package snick.cut;

/**
 * Force at the break as far as the samples tell it.
 *
 * @param forceCounts estimate, counts above zero
 * @param uncertaintyCounts its standard uncertainty, counts
 * @param breakTime instant of the break, the filter's delay included, periods
 * @param slopeCountsPerPeriod loading rate before the break, counts per period
 * @param uneven whether the loading speed was uneven beyond noise
 * @param leftOut samples left out as outliers
 */
record BreakEstimate(
    double forceCounts,
    double uncertaintyCounts,
    double breakTime,
    double slopeCountsPerPeriod,
    boolean uneven,
    int leftOut) {}
