package snick.verdict.comparison;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Supplier;
import snick.verdict.statistic.RankSum;
import snick.verdict.statistic.Readings;
import snick.verdict.statistic.Welch;

/**
 * What decided a comparison.
 *
 * @param differenceGf second mean minus first, gf
 * @param decidedBy the test that decided
 * @param p its two-sided p; with groups of unequal size the larger of Welch's and the pooled one
 * @param level error that the verdict may have: below 5 % before the planned number of cuts
 * @param verdict the outcome
 */
record Decision(
    double differenceGf, Comparison.DecidedBy decidedBy, double p, double level, Change verdict) {

  /**
   * Applies the rules of {@link Judge}.
   *
   * @param rankSum asked only if ranks of whole groups decide
   */
  static Decision of(
      Readings first,
      Readings second,
      Optional<Welch> welch,
      Optional<Paired> paired,
      boolean standsOut,
      Supplier<RankSum> rankSum,
      Optional<Equivalence> equivalence,
      OptionalDouble rigLimitGf,
      double level) {
    double differenceGf = paired.map(Paired::differenceGf).orElse(second.meanGf() - first.meanGf());
    Comparison.DecidedBy by = decidedBy(welch, paired, standsOut);
    double p =
        switch (by) {
          case PAIRED_T -> paired.orElseThrow().p();
          case SIGNED_RANKS -> paired.orElseThrow().signedRankP();
          case WELCH -> meanP(welch.orElseThrow(), first, second);
          case MANN_WHITNEY -> rankSum.get().p();
        };
    double shiftGf =
        by == Comparison.DecidedBy.MANN_WHITNEY ? rankSum.get().hodgesLehmannGf() : differenceGf;
    Change verdict = Change.NO_DIFFERENCE_SHOWN;
    boolean beyondRig = rigLimitGf.isEmpty() || Math.abs(differenceGf) > rigLimitGf.getAsDouble();
    if (equivalence.isPresent() && equivalence.get().p() < level) {
      verdict = Change.EQUIVALENT;
    } else if (p < level && beyondRig && shiftGf != 0) {
      verdict = shiftGf < 0 ? Change.LOWER : Change.HIGHER;
    }
    return new Decision(differenceGf, by, p, level, verdict);
  }

  /** Whether it was made before the planned number of cuts. */
  boolean early() {
    return level < Comparison.SIGNIFICANCE;
  }

  private static Comparison.DecidedBy decidedBy(
      Optional<Welch> welch, Optional<Paired> paired, boolean standsOut) {
    if (paired.isPresent()) {
      return standsOut ? Comparison.DecidedBy.SIGNED_RANKS : Comparison.DecidedBy.PAIRED_T;
    }
    return standsOut || welch.isEmpty()
        ? Comparison.DecidedBy.MANN_WHITNEY
        : Comparison.DecidedBy.WELCH;
  }

  private static double meanP(Welch welch, Readings first, Readings second) {
    return first.count() == second.count()
        ? welch.p()
        : Math.max(welch.p(), Welch.pooledP(first, second));
  }
}
