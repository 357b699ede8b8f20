package snick.verdict.comparison;

import java.util.OptionalInt;
import java.util.function.IntPredicate;
import org.apache.commons.statistics.distribution.TDistribution;
import snick.verdict.statistic.NoncentralT;
import snick.verdict.statistic.Readings;
import snick.verdict.statistic.Welch;

/**
 * Power of the two-sample t-test from the noncentral t distribution (as R's {@code power.t.test} by
 * default), and how many cuts reach 80 %.
 */
public final class Power {
  static final double WANTED = 0.80;

  /** More cuts than anybody makes on one edge. */
  static final int MOST_CUTS = 60;

  /** Standardised difference that is shown practically always. */
  private static final double CERTAIN = 40;

  private Power() {}

  /**
   * Probability that the two-sided 5 % test shows a true difference, in its right direction.
   *
   * @param difference true difference over its standard error, not negative
   */
  public static double ofDifference(double difference, double degreesOfFreedom) {
    double t =
        TDistribution.of(degreesOfFreedom).inverseSurvivalProbability(Comparison.SIGNIFICANCE / 2);
    return 1 - new NoncentralT(degreesOfFreedom, Math.min(difference, CERTAIN)).cumulative(t);
  }

  /**
   * Probability that two one-sided 5 % tests show equivalence when the true difference is 0.
   *
   * @param margin margin over the standard error of the difference
   */
  static double ofEquivalence(double margin, double degreesOfFreedom) {
    TDistribution central = TDistribution.of(degreesOfFreedom);
    double room = margin - central.inverseSurvivalProbability(Comparison.SIGNIFICANCE);
    return room > 0 ? 2 * central.cumulativeProbability(room) - 1 : 0;
  }

  static MoreCuts moreCuts(
      Readings first, Readings second, double differenceGf, Sought sought, double targetGf) {
    String basis = sought.basis(targetGf, first, second);
    if (first.allEqual() && second.allEqual()) {
      return new MoreCuts.NotWorthIt("the readings do not scatter, so no number can be reckoned");
    }
    OptionalInt inSecond =
        smallest(
            second.count() + 1,
            n -> sought.power(first.sdGf(), first.count(), second.sdGf(), n, targetGf) >= WANTED);
    if (inSecond.isPresent()) {
      return new MoreCuts.InSecond(inSecond.getAsInt() - second.count(), basis);
    }
    OptionalInt each =
        smallest(
            Math.max(first.count(), second.count()),
            n -> sought.power(first.sdGf(), n, second.sdGf(), n, targetGf) >= WANTED);
    return each.isPresent()
        ? new MoreCuts.PerGroup(each.getAsInt(), basis)
        : new MoreCuts.NotWorthIt(
            "even "
                + MOST_CUTS
                + " cuts a group would not settle a difference of "
                + Wording.signedGf(differenceGf)
                + " at this scatter; give a margin and ask for equivalence instead");
  }

  /** Places cut in both groups that would show {@code targetGf} at the scatter of the pairs. */
  static MoreCuts morePairs(Paired paired, Sought sought, double targetGf) {
    OptionalInt each =
        smallest(
            paired.pairs() + 1,
            n -> sought.power(Math.abs(targetGf) * Math.sqrt(n) / paired.sdGf(), n - 1) >= WANTED);
    return each.isPresent()
        ? new MoreCuts.PerGroup(
            each.getAsInt(),
            "at the same places, "
                + sought.question(targetGf)
                + " at a scatter of "
                + Wording.gf(paired.sdGf())
                + " of the pairs, with 80 % probability at 5 % error")
        : new MoreCuts.NotWorthIt("not even " + MOST_CUTS + " places cut in both groups");
  }

  /** Cuts that bring what the rig alone explains below {@code differenceGf}, gf, not negative. */
  static MoreCuts moreCutsAgainstRig(
      Readings first, Readings second, double differenceGf, RigRepeatability rig) {
    String basis =
        "to bring what the rig's repeatability explains below " + Wording.gf(differenceGf);
    OptionalInt inSecond =
        smallest(
            second.count() + 1, n -> rig.criticalDifferenceGf(first.count(), n) < differenceGf);
    if (inSecond.isPresent()) {
      return new MoreCuts.InSecond(inSecond.getAsInt() - second.count(), basis);
    }
    OptionalInt each =
        smallest(
            Math.max(first.count(), second.count()),
            n -> rig.criticalDifferenceGf(n, n) < differenceGf);
    return each.isPresent()
        ? new MoreCuts.PerGroup(each.getAsInt(), basis)
        : new MoreCuts.NotWorthIt(
            "even "
                + MOST_CUTS
                + " cuts a group would not lift "
                + Wording.gf(differenceGf)
                + " above this rig's repeatability");
  }

  private static OptionalInt smallest(int from, IntPredicate enough) {
    if (from > MOST_CUTS || !enough.test(MOST_CUTS)) {
      return OptionalInt.empty();
    }
    int low = from;
    int high = MOST_CUTS;
    while (low < high) {
      int middle = (low + high) / 2;
      if (enough.test(middle)) {
        high = middle;
      } else {
        low = middle + 1;
      }
    }
    return OptionalInt.of(low);
  }

  /** What is still to be shown. */
  enum Sought {
    DIFFERENCE {
      @Override
      double power(double standardised, double df) {
        return ofDifference(standardised, df);
      }
    },
    EQUIVALENCE {
      @Override
      double power(double standardised, double df) {
        return ofEquivalence(standardised, df);
      }
    };

    abstract double power(double standardised, double df);

    double power(double sd1, int n1, double sd2, int n2, double targetGf) {
      double error = Welch.standardError(sd1, n1, sd2, n2);
      return power(Math.abs(targetGf) / error, Welch.degreesOfFreedom(sd1, n1, sd2, n2));
    }

    String basis(double targetGf, Readings first, Readings second) {
      String scatter =
          "at scatters of "
              + Wording.gf(first.sdGf())
              + " and "
              + Wording.gf(second.sdGf())
              + ", with 80 % probability at 5 % error";
      return question(targetGf) + " " + scatter + (this == DIFFERENCE ? "; noncentral t" : "");
    }

    String question(double targetGf) {
      return this == DIFFERENCE
          ? "to show a true difference of " + Wording.gf(Math.abs(targetGf)) + " (the one seen)"
          : "to show equivalence within " + Wording.gf(targetGf) + " if there is none";
    }
  }
}
