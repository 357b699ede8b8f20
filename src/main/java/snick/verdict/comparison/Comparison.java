package snick.verdict.comparison;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.verdict.statistic.EffectSize;
import snick.verdict.statistic.Interval;
import snick.verdict.statistic.Permutation;
import snick.verdict.statistic.RankSum;
import snick.verdict.statistic.Ratio;
import snick.verdict.statistic.Welch;

/**
 * Two groups of cuts compared; difference is second minus first throughout, in gf. Statistics that
 * do not exist for the readings at hand are empty, never NaN.
 *
 * @param first figures of the first group
 * @param second figures of the second group
 * @param differenceGf second mean minus first, gf; if pairs decide their mean difference
 * @param welch Welch's test; empty if neither group scatters
 * @param paired test over places that both cut; empty unless it decides
 * @param rankSum Mann–Whitney test and Hodges–Lehmann shift
 * @param permutation permutation test of the difference of means
 * @param ratio second mean over first; empty if the first is not shown to be above 0
 * @param equivalence tests against the margin; empty without a margin or without scatter
 * @param rigLimitGf difference that the rig's repeatability alone exceeds in 5 % of comparisons;
 *     empty if it is not known
 * @param decidedBy the test that decided, by the rule in {@link Judge}
 * @param decisiveP its two-sided p; with groups of unequal size the larger of Welch's and the
 *     pooled one
 * @param level error that the verdict may have: below 5 % before the planned number of cuts
 * @param verdict what became of the force
 * @param moreCuts what would settle it
 * @param reasons why
 */
public record Comparison(
    GroupFigures first,
    GroupFigures second,
    double differenceGf,
    Optional<Welch> welch,
    Optional<Paired> paired,
    RankSum rankSum,
    Permutation permutation,
    Optional<Ratio> ratio,
    Optional<Equivalence> equivalence,
    OptionalDouble rigLimitGf,
    DecidedBy decidedBy,
    double decisiveP,
    double level,
    Change verdict,
    MoreCuts moreCuts,
    List<Reason> reasons) {
  /** Error that a verdict of difference or equivalence may have. */
  public static final double SIGNIFICANCE = 0.05;

  /** Which test decided. */
  public enum DecidedBy {
    WELCH,
    MANN_WHITNEY,
    PAIRED_T,
    SIGNED_RANKS
  }

  public Comparison {
    reasons = List.copyOf(reasons);
  }

  /** 95 % interval of {@link #differenceGf}: of the pairs if they decide, else Welch's. */
  public Optional<Interval> ci95Gf() {
    return paired.map(Paired::ci95Gf).or(() -> welch.map(Welch::ci95Gf));
  }

  /** Hedges' g, worked out when asked for; empty if neither group scatters. */
  public Optional<EffectSize> effect() {
    return EffectSize.of(asked(first), asked(second));
  }

  private static EffectSize.Group asked(GroupFigures group) {
    return new EffectSize.Group(group.n(), group.meanGf(), group.sdGf().orElseThrow());
  }

  /** Whether the difference exceeds what the rig's repeatability explains; empty if not known. */
  public Optional<Boolean> exceedsRig() {
    return rigLimitGf.isPresent()
        ? Optional.of(Math.abs(differenceGf) > rigLimitGf.getAsDouble())
        : Optional.empty();
  }
}
