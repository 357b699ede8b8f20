package snick.cut.estimate;

/**
 * The force at the break and its uncertainty, term by term.
 *
 * @param forceCounts estimate, counts above zero
 * @param instantSeconds equal-area instant of the fall, s, in the loading's time
 * @param loadingRateCountsPerSecond slope of the loading before the break, counts/s
 * @param budget what makes the uncertainty
 */
public record ForceAtBreak(
    double forceCounts, double instantSeconds, double loadingRateCountsPerSecond, Budget budget) {}
