package snick.verdict;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.journal.Margin;

/**
 * Compares two groups of cuts.
 *
 * <p>Rules, in this order:
 *
 * <ol>
 *   <li>Welch's test decides; if the groups differ in size, Student's pooled test must agree, for
 *       with few and unequal cuts Welch's alone errs in more than 5 % (up to 9 % with 2 and 8 cuts,
 *       60 000 simulated comparisons). The exact Mann–Whitney test decides instead if Grubbs' test
 *       flags a reading of either group at 1 % or if neither group scatters.
 *   <li>With a margin: {@code equivalent} if both one-sided tests are below 5 %.
 *   <li>{@code lower} or {@code higher} if the deciding p is below 5 % and the difference exceeds
 *       what the rig's repeatability explains, if that is known.
 *   <li>Else {@code no_difference_shown}.
 * </ol>
 *
 * @param marginGf largest difference that does not matter, gf, above 0
 * @param marginFrom where the margin is from, for people; empty if there is none
 * @param rig the rig's repeatability, if known
 */
public record Judge(OptionalDouble marginGf, String marginFrom, Optional<RigRepeatability> rig) {
  private static final double OUTLIER_LEVEL = 0.01;

  /** A judge whose margin was stated. */
  public Judge(OptionalDouble marginGf, Optional<RigRepeatability> rig) {
    this(marginGf, marginGf.isPresent() ? "as stated" : "", rig);
  }

  /** A judge with a margin and where that is from. */
  public static Judge of(Optional<Margin> margin, Optional<RigRepeatability> rig) {
    return new Judge(
        margin.map(m -> OptionalDouble.of(m.gramForce())).orElseGet(OptionalDouble::empty),
        margin.map(Margin::from).orElse(""),
        rig);
  }

  public Judge {
    if (marginGf.isPresent() && !(marginGf.getAsDouble() > 0 && marginGf.getAsDouble() <= 1e6)) {
      throw new NotComparable(
          "margin " + marginGf.getAsDouble() + " gf is outside 0 (excluded) to 1000000 gf");
    }
  }

  /** A judge without margin and without knowledge of the rig. */
  public static Judge plain() {
    return new Judge(OptionalDouble.empty(), Optional.empty());
  }

  /** A judge with a margin, gf. */
  public static Judge withMarginGf(double marginGf) {
    return new Judge(OptionalDouble.of(marginGf), Optional.empty());
  }

  /**
   * Compares {@code second} with {@code first}.
   *
   * @throws NotComparable if either has fewer than 2 readings
   */
  public Comparison compare(Readings first, Readings second) {
    first.atLeast(2);
    second.atLeast(2);
    GroupFigures before = GroupFigures.of(first, rig);
    GroupFigures after = GroupFigures.of(second, rig);
    Optional<Welch> welch = Welch.of(first, second);
    RankSum rankSum = RankSum.of(first, second);
    Optional<Equivalence> equivalence = equivalence(welch);
    OptionalDouble rigLimit = rigLimitGf(first, second);
    Decision decision =
        Decision.of(
            first,
            second,
            welch,
            standsOut(before.outlier()) || standsOut(after.outlier()),
            () -> rankSum,
            equivalence,
            rigLimit);
    MoreCuts moreCuts = moreCuts(first, second, decision);
    Permutation permutation = Permutation.of(first, second);
    Explanation explanation = new Explanation(decision, welch, rankSum, equivalence, rigLimit);
    return new Comparison(
        before,
        after,
        decision.differenceGf(),
        welch,
        rankSum,
        permutation,
        EffectSize.of(first, second),
        welch.flatMap(w -> Ratio.of(first, second, w)),
        equivalence,
        rigLimit,
        decision.decidedBy(),
        decision.p(),
        decision.verdict(),
        moreCuts,
        reasons(first, second, explanation, moreCuts, permutation));
  }

  /**
   * The verdict of {@link #compare} alone, without the figures that do not decide.
   *
   * @throws NotComparable if either has fewer than 2 readings
   */
  public Change verdict(Readings first, Readings second) {
    first.atLeast(2);
    second.atLeast(2);
    Optional<Welch> welch = Welch.of(first, second);
    return Decision.of(
            first,
            second,
            welch,
            standsOut(Grubbs.of(first)) || standsOut(Grubbs.of(second)),
            () -> RankSum.of(first, second),
            equivalence(welch),
            rigLimitGf(first, second))
        .verdict();
  }

  private Optional<Equivalence> equivalence(Optional<Welch> welch) {
    return marginGf.isPresent()
        ? welch.map(w -> Equivalence.of(w, marginGf.getAsDouble()))
        : Optional.empty();
  }

  private OptionalDouble rigLimitGf(Readings first, Readings second) {
    return rig.isPresent()
        ? OptionalDouble.of(rig.get().criticalDifferenceGf(first.count(), second.count()))
        : OptionalDouble.empty();
  }

  private static boolean standsOut(Optional<Grubbs> farthest) {
    return farthest.filter(g -> g.p() < OUTLIER_LEVEL).isPresent();
  }

  private MoreCuts moreCuts(Readings first, Readings second, Decision decision) {
    if (decision.verdict() != Change.NO_DIFFERENCE_SHOWN) {
      return new MoreCuts.Settled();
    }
    double difference = decision.differenceGf();
    if (rig.isPresent() && decision.p() < Comparison.SIGNIFICANCE) {
      return Power.moreCutsAgainstRig(first, second, Math.abs(difference), rig.get());
    }
    boolean small = marginGf.isPresent() && Math.abs(difference) < marginGf.getAsDouble() / 2;
    if (small) {
      return Power.moreCuts(
          first, second, difference, Power.Sought.EQUIVALENCE, marginGf.getAsDouble());
    }
    return Power.moreCuts(first, second, difference, Power.Sought.DIFFERENCE, difference);
  }

  private List<Reason> reasons(
      Readings first,
      Readings second,
      Explanation explanation,
      MoreCuts moreCuts,
      Permutation permutation) {
    List<Reason> reasons = new ArrayList<>();
    reasons.add(explanation.difference(first, second, moreCuts));
    explanation.againstMargin().ifPresent(reasons::add);
    explanation.againstRig(rig).ifPresent(reasons::add);
    outlierReason(first).ifPresent(reasons::add);
    outlierReason(second).ifPresent(reasons::add);
    explanation.shortInterval().ifPresent(reasons::add);
    explanation.approximations(permutation).ifPresent(reasons::add);
    return reasons;
  }

  private static Optional<Reason> outlierReason(Readings readings) {
    return Grubbs.of(readings)
        .filter(Grubbs::flagged)
        .map(
            g ->
                new Reason(
                    readings.name()
                        + ": "
                        + Wording.gf(g.valueGf())
                        + " stands "
                        + Wording.number(g.g())
                        + " standard deviations from the mean; it is kept in every figure",
                    "Grubbs' test flags beyond "
                        + Wording.number(g.criticalTwoSided())
                        + " (5 %, two-sided); below 1 % the Mann–Whitney test decides",
                    "setting the cut aside for a reason seen at the rig",
                    "NIST/SEMATECH e-Handbook 1.3.5.17.1"));
  }
}
