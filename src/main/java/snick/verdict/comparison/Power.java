package snick.verdict.comparison;

import java.util.OptionalInt;
import java.util.function.IntPredicate;
import org.apache.commons.statistics.distribution.TDistribution;
import snick.phrase.Phrase;
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
    Phrase basis = sought.basis(targetGf, first, second);
    if (first.allEqual() && second.allEqual()) {
      return new MoreCuts.NotWorthIt(Phrase.of("more.no_scatter"));
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
            Phrase.of("more.in_vain", "n", MOST_CUTS, "by", Wording.signedGf(differenceGf)));
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
            Phrase.of("more.at_places")
                .with("question", sought.question(targetGf))
                .with("sd", Wording.gf(paired.sdGf())))
        : new MoreCuts.NotWorthIt(Phrase.of("more.places_in_vain", "n", MOST_CUTS));
  }

  /** Cuts that bring what the rig alone explains below {@code differenceGf}, gf, not negative. */
  static MoreCuts moreCutsAgainstRig(
      Readings first, Readings second, double differenceGf, RigRepeatability rig) {
    Phrase basis = Phrase.of("more.against_rig", "force", Wording.gf(differenceGf));
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
            Phrase.of("more.rig_in_vain", "n", MOST_CUTS, "force", Wording.gf(differenceGf)));
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

    Phrase basis(double targetGf, Readings first, Readings second) {
      return Phrase.of("more.at_scatter")
          .with("question", question(targetGf))
          .with("sd1", Wording.gf(first.sdGf()))
          .with("sd2", Wording.gf(second.sdGf()));
    }

    Phrase question(double targetGf) {
      return Phrase.of(this == DIFFERENCE ? "more.to_show" : "more.to_show_alike")
          .with("force", Wording.gf(Math.abs(targetGf)));
    }
  }
}
