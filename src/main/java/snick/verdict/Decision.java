package snick.verdict;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Supplier;

/**
 * What decided a comparison.
 *
 * @param differenceGf second mean minus first, gf
 * @param decidedBy the test that decided
 * @param p its two-sided p; with groups of unequal size the larger of Welch's and the pooled one
 * @param verdict the outcome
 */
record Decision(double differenceGf, Comparison.DecidedBy decidedBy, double p, Change verdict) {

  /**
   * Applies the rules of {@link Judge}.
   *
   * @param rankSum asked only if ranks decide
   */
  static Decision of(
      Readings first,
      Readings second,
      Optional<Welch> welch,
      boolean ranksDecide,
      Supplier<RankSum> rankSum,
      Optional<Equivalence> equivalence,
      OptionalDouble rigLimitGf) {
    double differenceGf = second.meanGf() - first.meanGf();
    boolean byRanks = ranksDecide || welch.isEmpty();
    double p = byRanks ? rankSum.get().p() : meanP(welch.get(), first, second);
    double shiftGf = byRanks ? rankSum.get().hodgesLehmannGf() : differenceGf;
    Change verdict = Change.NO_DIFFERENCE_SHOWN;
    boolean beyondRig = rigLimitGf.isEmpty() || Math.abs(differenceGf) > rigLimitGf.getAsDouble();
    if (equivalence.isPresent() && equivalence.get().shown()) {
      verdict = Change.EQUIVALENT;
    } else if (p < Comparison.SIGNIFICANCE && beyondRig && shiftGf != 0) {
      verdict = shiftGf < 0 ? Change.LOWER : Change.HIGHER;
    }
    return new Decision(
        differenceGf,
        byRanks ? Comparison.DecidedBy.MANN_WHITNEY : Comparison.DecidedBy.WELCH,
        p,
        verdict);
  }

  private static double meanP(Welch welch, Readings first, Readings second) {
    return first.count() == second.count()
        ? welch.p()
        : Math.max(welch.p(), Welch.pooledP(first, second));
  }
}
