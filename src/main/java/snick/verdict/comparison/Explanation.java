package snick.verdict.comparison;

import java.util.Optional;
import java.util.OptionalDouble;
import snick.phrase.Phrase;
import snick.verdict.statistic.Interval;
import snick.verdict.statistic.Permutation;
import snick.verdict.statistic.RankSum;
import snick.verdict.statistic.Readings;
import snick.verdict.statistic.Welch;

/** The sentences that tell what the tests of one comparison found. */
record Explanation(Decision decision, Tests tests, OptionalDouble rigLimitGf) {
  Reason difference(Readings first, Readings second, MoreCuts moreCuts) {
    return new Reason(
        Phrase.of("reason.groups")
            .with("first", figures(first))
            .with("second", figures(second))
            .with("found", tests.paired().map(this::tested).orElseGet(this::tested)),
        rule(),
        wouldChange(moreCuts),
        Phrase.of(tests.paired().isPresent() ? "source.paired" : "source.means"));
  }

  private Phrase rule() {
    return Phrase.of("rule." + decision.decidedBy().word())
        .with("often", Phrase.of(decision.early() ? "rule.often_early" : "rule.often"))
        .with("level", decision.level());
  }

  private Phrase tested(Paired paired) {
    boolean ranksDecide = decision.decidedBy() == Decision.DecidedBy.SIGNED_RANKS;
    return Phrase.of(ranksDecide ? "reason.paired_by_ranks" : "reason.paired")
        .with("n", paired.pairs())
        .with("by", Wording.signedGf(paired.differenceGf()))
        .with("interval", Wording.between(paired.ci95Gf()))
        .with("chance", Wording.chance(decision.p()))
        .with("p", Wording.p(paired.p()))
        .with("ranks", Wording.p(paired.signedRankP()));
  }

  /** Says what skew does to groups of unequal size. */
  Optional<Reason> unequalGroups(Readings first, Readings second) {
    boolean told = tests.paired().isEmpty() && first.count() != second.count();
    return told
        ? Optional.of(
            new Reason(
                Phrase.of("reason.unequal", "first", first.count(), "second", second.count()),
                Phrase.of("rule.unequal"),
                Phrase.of("unless.unequal"),
                Phrase.of("source.unequal")))
        : Optional.empty();
  }

  private static Phrase figures(Readings readings) {
    return Phrase.of("reason.figures")
        .with("name", readings.name())
        .with("mean", Wording.gf(readings.meanGf()))
        .with("cuts", Wording.cuts(readings.count()))
        .with("sd", Wording.gf(readings.sdGf()));
  }

  private Phrase tested() {
    return tests.welch().map(this::tested).orElseGet(() -> told("reason.no_scatter"));
  }

  private Phrase tested(Welch test) {
    boolean ranksDecide = decision.decidedBy() == Decision.DecidedBy.MANN_WHITNEY;
    return told(ranksDecide ? "reason.welch_by_ranks" : "reason.welch")
        .with("interval", Wording.between(test.ci95Gf()))
        .with("p", Wording.p(test.p()));
  }

  private Phrase told(String key) {
    return Phrase.of(key)
        .with("by", Wording.signedGf(decision.differenceGf()))
        .with("chance", Wording.chance(decision.p()))
        .with("ranks", Wording.p(tests.rankSum().p()));
  }

  private Phrase wouldChange(MoreCuts moreCuts) {
    return decision.verdict() == Change.NO_DIFFERENCE_SHOWN
        ? moreCuts.told().orElseGet(() -> Phrase.of("unless.nothing_open"))
        : Phrase.of("unless.other_cuts");
  }

  /** A change that is shown and larger than the margin has nothing to do with it. */
  Optional<Reason> againstMargin() {
    boolean shown = decision.verdict() == Change.LOWER || decision.verdict() == Change.HIGHER;
    return tests
        .equivalence()
        .filter(e -> !shown)
        .map(
            e ->
                new Reason(
                    Phrase.of(marginText())
                        .with("interval", Wording.between(e.ci90Gf()))
                        .with("margin", Wording.gf(e.marginGf()))
                        .with("p", Wording.p(e.p())),
                    Phrase.of("rule.margin", "level", decision.level()),
                    Phrase.of("unless.margin"),
                    Phrase.of("source.equivalence")));
  }

  private String marginText() {
    if (decision.verdict() != Change.EQUIVALENT) {
      return "reason.margin_not_shown";
    }
    return decision.p() < decision.level()
        ? "reason.margin_small_but_shown"
        : "reason.margin_shown";
  }

  Optional<Reason> againstRig(Optional<RigRepeatability> rig) {
    return rig.map(
        r ->
            new Reason(
                Phrase.of("reason.rig")
                    .with("sd", Wording.gf(r.sdGf()))
                    .with("study", r.study())
                    .with("limit", Wording.gf(rigLimitGf.orElseThrow()))
                    .with("by", Wording.signedGf(decision.differenceGf())),
                Phrase.of("rule.rig"),
                Phrase.of("unless.rig"),
                Phrase.of("source.rig")));
  }

  /** Says which figures are not exact. */
  Optional<Reason> approximations() {
    Permutation permutation = tests.permutation();
    boolean normal = tests.rankSum().method() == RankSum.Method.NORMAL_APPROXIMATION;
    return permutation.exact()
        ? Optional.empty()
        : Optional.of(
            new Reason(
                Phrase.of(normal ? "reason.approximate_both" : "reason.approximate")
                    .with("n", permutation.relabellings())
                    .with("seed", Permutation.SEED),
                Phrase.of("rule.approximate"),
                Phrase.of("unless.approximate"),
                Phrase.of("source.ranks")));
  }

  Optional<Reason> shortInterval() {
    Interval shift = tests.rankSum().ciGf();
    if (shift.confidence() >= 0.95) {
      return Optional.empty();
    }
    return Optional.of(
        new Reason(
            Phrase.of("reason.short_interval")
                .with("range", Wording.range(shift))
                .with("share", Wording.percent(shift.confidence())),
            Phrase.of("rule.short_interval"),
            Phrase.of("unless.short_interval"),
            Phrase.of("source.shift")));
  }
}
