package snick.verdict.comparison;

import java.util.Optional;
import java.util.OptionalDouble;
import snick.verdict.statistic.Interval;
import snick.verdict.statistic.Permutation;
import snick.verdict.statistic.RankSum;
import snick.verdict.statistic.Readings;
import snick.verdict.statistic.Welch;

/** The sentences that tell what the tests of one comparison found. */
record Explanation(
    Decision decision,
    Optional<Welch> welch,
    Optional<Paired> paired,
    RankSum rankSum,
    Optional<Equivalence> equivalence,
    OptionalDouble rigLimitGf) {
  private static final String SKEWED_UNEQUAL = "11 %";

  Reason difference(Readings first, Readings second, MoreCuts moreCuts) {
    return new Reason(
        first.name()
            + " "
            + figures(first)
            + ", "
            + second.name()
            + " "
            + figures(second)
            + ": "
            + paired.map(Explanation::tested).orElseGet(this::tested),
        rule(),
        wouldChange(moreCuts),
        paired.isPresent() ? "Student 1908; Wilcoxon 1945" : "Welch 1947; Mann and Whitney 1947");
  }

  private String rule() {
    String below = decision.level() + "; here " + Wording.p(decision.p());
    return switch (decision.decidedBy()) {
      case WELCH ->
          "a difference counts as shown if Welch's two-sided p, with groups of unequal size also"
              + " Student's pooled p, is below "
              + below;
      case MANN_WHITNEY ->
          "a difference counts as shown if the Mann–Whitney p is below "
              + below
              + "; it decides as a reading stands out or nothing scatters";
      case PAIRED_T ->
          "both cut the same places, so the paired t-test decides, whatever the forces are; its p"
              + " must be below "
              + below;
      case SIGNED_RANKS ->
          "both cut the same places and one pair stands out, so Wilcoxon's signed ranks decide;"
              + " their p must be below "
              + below;
    };
  }

  private static String tested(Paired paired) {
    return paired.pairs()
        + " places in common, mean difference "
        + Wording.signedGf(paired.differenceGf())
        + ", 95 % interval "
        + Wording.range(paired.ci95Gf())
        + ", paired t "
        + Wording.p(paired.p())
        + ", signed ranks "
        + Wording.p(paired.signedRankP());
  }

  /** Says what skew does to groups of unequal size. */
  Optional<Reason> unequalGroups(Readings first, Readings second) {
    boolean told = paired.isEmpty() && first.count() != second.count();
    return told
        ? Optional.of(
            new Reason(
                "the groups have " + first.count() + " and " + Wording.cuts(second.count()),
                "if the smaller group also scatters more and scatter is skewed, a verdict at 5 % errs in about "
                    + SKEWED_UNEQUAL,
                "as many cuts in both groups, best at the same places",
                "simulated; why: Cressie and Whitford 1986"))
        : Optional.empty();
  }

  private static String figures(Readings readings) {
    return Wording.gf(readings.meanGf())
        + " (SD "
        + Wording.gf(readings.sdGf())
        + ", "
        + Wording.cuts(readings.count())
        + ")";
  }

  private String tested() {
    String rank =
        "Mann–Whitney "
            + Wording.p(rankSum.p())
            + ", shift "
            + Wording.signedGf(rankSum.hodgesLehmannGf());
    return welch
        .map(
            w ->
                "difference "
                    + Wording.signedGf(decision.differenceGf())
                    + ", 95 % interval "
                    + Wording.range(w.ci95Gf())
                    + ", Welch "
                    + Wording.p(w.p())
                    + ", "
                    + rank)
        .orElseGet(
            () ->
                "difference "
                    + Wording.signedGf(decision.differenceGf())
                    + "; neither group scatters, so there is no t-test; "
                    + rank);
  }

  private String wouldChange(MoreCuts moreCuts) {
    if (decision.verdict() != Change.NO_DIFFERENCE_SHOWN) {
      return "further cuts whose mean differs, or cuts set aside with a reason";
    }
    if (moreCuts instanceof MoreCuts.InSecond more) {
      return "about " + more.inSecond() + " more in the second group, " + more.basis();
    }
    if (moreCuts instanceof MoreCuts.PerGroup each) {
      return "about " + each.perGroup() + " cuts in each group, " + each.basis();
    }
    return moreCuts instanceof MoreCuts.NotWorthIt no ? no.basis() : "nothing is open";
  }

  Optional<Reason> againstMargin() {
    return equivalence.map(
        e ->
            new Reason(
                "90 % interval of the difference "
                    + Wording.range(e.ci90Gf())
                    + " against a margin of "
                    + Wording.gf(e.marginGf())
                    + ", larger one-sided "
                    + Wording.p(e.p())
                    + (decision.verdict() == Change.EQUIVALENT && decision.p() < decision.level()
                        ? "; a difference is shown, but it is smaller than the margin"
                        : ""),
                "equivalent if both one-sided p are below "
                    + decision.level()
                    + " (at 0.05: if the interval lies inside the margin)",
                "another margin, or cuts that move the interval over it",
                "Schuirmann 1987"));
  }

  Optional<Reason> againstRig(Optional<RigRepeatability> rig) {
    return rig.map(
        r ->
            new Reason(
                "the rig alone scatters by "
                    + Wording.gf(r.sdGf())
                    + " ("
                    + r.study()
                    + "), so "
                    + Wording.gf(rigLimitGf.orElseThrow())
                    + " between these means could be the rig's; the difference is "
                    + Wording.signedGf(decision.differenceGf()),
                "a difference must exceed the rig's repeatability (95 %) to count",
                "a new repeatability study",
                "JCGM 200:2012, 2.21; JCGM 100:2008, G.3"));
  }

  /** Says which figures are not exact. */
  Optional<Reason> approximations(Permutation permutation) {
    String ranks =
        rankSum.method() == RankSum.Method.NORMAL_APPROXIMATION
            ? "Mann–Whitney by the normal approximation; "
            : "";
    return permutation.exact()
        ? Optional.empty()
        : Optional.of(
            new Reason(
                ranks
                    + "permutation p from "
                    + permutation.relabellings()
                    + " random relabellings with seed "
                    + Permutation.SEED,
                "all orders are tried while there are few enough",
                "fewer cuts",
                "Hollander and Wolfe 1973"));
  }

  Optional<Reason> shortInterval() {
    Interval shift = rankSum.ciGf();
    if (shift.confidence() >= 0.95) {
      return Optional.empty();
    }
    return Optional.of(
        new Reason(
            "with so few cuts the range of all differences, "
                + Wording.range(shift)
                + ", holds the shift with only "
                + Wording.percent(shift.confidence()),
            "an exact 95 % interval of the shift needs more, for example 4 cuts in each group",
            "more cuts",
            "Hollander and Wolfe 1973, section 4.3"));
  }
}
