package snick.verdict.comparison;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Supplier;
import snick.quantity.Worded;
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
public record Decision(
    double differenceGf, DecidedBy decidedBy, double p, double level, Change verdict) {

  /** Which test decided. */
  public enum DecidedBy implements Worded {
    WELCH,
    MANN_WHITNEY,
    PAIRED_T,
    SIGNED_RANKS
  }

  /**
   * Rules of {@link Judge} for one comparison.
   *
   * @param standsOut whether a reading stands out so far that ranks decide
   * @param rigLimitGf difference that the rig alone explains, gf; empty if it is not known
   * @param level error that the verdict may have
   */
  record Rules(boolean standsOut, OptionalDouble rigLimitGf, double level) {
    /** Decides; {@code rankSum} is asked only if ranks of whole groups decide. */
    Decision of(
        Readings first,
        Readings second,
        Optional<Welch> welch,
        Optional<Paired> paired,
        Optional<Equivalence> equivalence,
        Supplier<RankSum> rankSum) {
      double differenceGf =
          paired.map(Paired::differenceGf).orElse(second.meanGf() - first.meanGf());
      DecidedBy by = decidedBy(welch, paired);
      double p =
          switch (by) {
            case PAIRED_T -> paired.orElseThrow().p();
            case SIGNED_RANKS -> paired.orElseThrow().signedRankP();
            case WELCH -> meanP(welch.orElseThrow(), first, second);
            case MANN_WHITNEY -> rankSum.get().p();
          };
      double shiftGf =
          by == DecidedBy.MANN_WHITNEY ? rankSum.get().hodgesLehmannGf() : differenceGf;
      boolean equivalent = equivalence.isPresent() && equivalence.get().p() < level;
      boolean shown = p < level && beyondRig(differenceGf);
      return new Decision(
          differenceGf, by, p, level, equivalent ? Change.EQUIVALENT : direction(shown, shiftGf));
    }

    private static Change direction(boolean shown, double shiftGf) {
      if (!shown || shiftGf == 0) {
        return Change.NO_DIFFERENCE_SHOWN;
      }
      return shiftGf < 0 ? Change.LOWER : Change.HIGHER;
    }

    private boolean beyondRig(double differenceGf) {
      return rigLimitGf.isEmpty() || Math.abs(differenceGf) > rigLimitGf.getAsDouble();
    }

    private DecidedBy decidedBy(Optional<Welch> welch, Optional<Paired> paired) {
      if (paired.isPresent()) {
        return standsOut ? DecidedBy.SIGNED_RANKS : DecidedBy.PAIRED_T;
      }
      return standsOut || welch.isEmpty() ? DecidedBy.MANN_WHITNEY : DecidedBy.WELCH;
    }
  }

  /** Whether it was made before the planned number of cuts. */
  boolean early() {
    return level < Comparison.SIGNIFICANCE;
  }

  private static double meanP(Welch welch, Readings first, Readings second) {
    return first.count() == second.count()
        ? welch.p()
        : Math.max(welch.p(), Welch.pooledP(first, second));
  }
}
