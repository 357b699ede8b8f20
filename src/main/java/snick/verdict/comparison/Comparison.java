package snick.verdict.comparison;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.verdict.statistic.EffectSize;
import snick.verdict.statistic.Interval;
import snick.verdict.statistic.Welch;

/**
 * Two groups of cuts compared; difference is second minus first throughout, in gf. Statistics that
 * do not exist for the readings at hand are empty, never NaN.
 *
 * @param first figures of the first group
 * @param second figures of the second group
 * @param tests what each test found
 * @param rigLimitGf difference that the rig's repeatability alone exceeds in 5 % of comparisons;
 *     empty if it is not known
 * @param decision what became of the force, and by which test
 * @param moreCuts what would settle it
 * @param reasons why
 */
public record Comparison(
    GroupFigures first,
    GroupFigures second,
    Tests tests,
    OptionalDouble rigLimitGf,
    Decision decision,
    MoreCuts moreCuts,
    List<Reason> reasons) {
  /** Error that a verdict of difference or equivalence may have. */
  public static final double SIGNIFICANCE = 0.05;

  public Comparison {
    reasons = List.copyOf(reasons);
  }

  /** What became of the force. */
  public Change verdict() {
    return decision.verdict();
  }

  /** Second mean minus first, gf; if pairs decide their mean difference. */
  public double differenceGf() {
    return decision.differenceGf();
  }

  /** 95 % interval of {@link #differenceGf}: of the pairs if they decide, else Welch's. */
  public Optional<Interval> ci95Gf() {
    return tests.paired().map(Paired::ci95Gf).or(() -> tests.welch().map(Welch::ci95Gf));
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
        ? Optional.of(Math.abs(differenceGf()) > rigLimitGf.getAsDouble())
        : Optional.empty();
  }
}
