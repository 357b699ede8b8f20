package snick.verdict;

import java.util.Optional;
import java.util.OptionalDouble;

/** The tests of one comparison, and the sentences that tell what they found. */
record TwoGroupTests(
    double differenceGf,
    Comparison.DecidedBy decidedBy,
    Optional<Welch> welch,
    RankSum rankSum,
    Optional<Equivalence> equivalence,
    OptionalDouble rigLimitGf) {

  Change verdict() {
    if (equivalence.isPresent() && equivalence.get().shown()) {
      return Change.EQUIVALENT;
    }
    boolean beyondRig = rigLimitGf.isEmpty() || Math.abs(differenceGf) > rigLimitGf.getAsDouble();
    if (!(p() < Comparison.SIGNIFICANCE) || !beyondRig || shiftGf() == 0) {
      return Change.NO_DIFFERENCE_SHOWN;
    }
    return shiftGf() < 0 ? Change.LOWER : Change.HIGHER;
  }

  private double p() {
    return decidedBy == Comparison.DecidedBy.WELCH ? welch.orElseThrow().p() : rankSum.p();
  }

  private double shiftGf() {
    return decidedBy == Comparison.DecidedBy.WELCH ? differenceGf : rankSum.hodgesLehmannGf();
  }

  Reason difference(Readings first, Readings second, Change verdict, MoreCuts moreCuts) {
    return new Reason(
        first.name()
            + " "
            + figures(first)
            + ", "
            + second.name()
            + " "
            + figures(second)
            + ": "
            + tested(),
        decidedBy == Comparison.DecidedBy.WELCH
            ? "a difference counts as shown if Welch's two-sided p is below 0.05"
            : "a difference counts as shown if the exact Mann–Whitney p is below 0.05;"
                + " it decides as a reading stands out or nothing scatters",
        wouldChange(verdict, moreCuts),
        "Welch 1947; Mann and Whitney 1947");
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
                    + Wording.signedGf(differenceGf)
                    + ", 95 % interval "
                    + Wording.range(w.ci95Gf())
                    + ", Welch "
                    + Wording.p(w.p())
                    + ", "
                    + rank)
        .orElseGet(
            () ->
                "difference "
                    + Wording.signedGf(differenceGf)
                    + "; neither group scatters, so there is no t-test; "
                    + rank);
  }

  private static String wouldChange(Change verdict, MoreCuts moreCuts) {
    if (verdict != Change.NO_DIFFERENCE_SHOWN) {
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

  Optional<Reason> againstMargin(Change verdict) {
    return equivalence.map(
        e ->
            new Reason(
                "90 % interval of the difference "
                    + Wording.range(e.ci90Gf())
                    + " against a margin of "
                    + Wording.gf(e.marginGf())
                    + ", larger one-sided "
                    + Wording.p(e.p())
                    + (verdict == Change.EQUIVALENT && p() < Comparison.SIGNIFICANCE
                        ? "; a difference is shown, but it is smaller than the margin"
                        : ""),
                "equivalent if the interval lies inside the margin (two one-sided tests at 5 %)",
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
                    + Wording.signedGf(differenceGf),
                "a difference must exceed the rig's repeatability (95 %) to count",
                "a new repeatability study",
                "JCGM 200:2012, 2.21; JCGM 100:2008, G.3"));
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
