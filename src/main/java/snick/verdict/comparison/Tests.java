package snick.verdict.comparison;

import java.util.Optional;
import snick.verdict.statistic.Permutation;
import snick.verdict.statistic.RankSum;
import snick.verdict.statistic.Ratio;
import snick.verdict.statistic.Welch;

/**
 * What each test of one comparison found. A test that the readings do not bear is empty.
 *
 * @param welch Welch's test; empty if neither group scatters
 * @param paired test over places that both cut; empty unless it decides
 * @param rankSum Mann–Whitney test and Hodges–Lehmann shift
 * @param permutation permutation test of the difference of means
 * @param ratio second mean over first; empty if the first is not shown to be above 0
 * @param equivalence tests against the margin; empty without a margin or without scatter
 */
public record Tests(
    Optional<Welch> welch,
    Optional<Paired> paired,
    RankSum rankSum,
    Permutation permutation,
    Optional<Ratio> ratio,
    Optional<Equivalence> equivalence) {}
