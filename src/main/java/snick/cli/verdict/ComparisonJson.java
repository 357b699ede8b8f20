package snick.cli.verdict;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import snick.cli.terminal.Figures;
import snick.cli.terminal.Said;
import snick.json.Json;
import snick.verdict.comparison.Comparison;
import snick.verdict.comparison.Equivalence;
import snick.verdict.comparison.GroupFigures;
import snick.verdict.comparison.Paired;
import snick.verdict.statistic.EffectSize;
import snick.verdict.statistic.Interval;
import snick.verdict.statistic.Ratio;
import snick.verdict.statistic.Welch;

/** A comparison as a JSON object; every digit, forces in gf, null where there is no such figure. */
public final class ComparisonJson {
  private ComparisonJson() {}

  /** The object for {@code c}. */
  public static Map<String, Object> of(Comparison c) {
    Map<String, Object> object = new LinkedHashMap<>();
    object.put("first", group(c.first()));
    object.put("second", group(c.second()));
    object.put("difference", c.second().meanGf() - c.first().meanGf());
    putWelch(object, c.tests().welch());
    object.put("mann_whitney_u", c.tests().rankSum().u());
    object.put("mann_whitney_p", c.tests().rankSum().p());
    object.put("hodges_lehmann", c.tests().rankSum().hodgesLehmannGf());
    object.put("hodges_lehmann_ci", Figures.ends(c.tests().rankSum().ciGf()));
    object.put("permutation_p", c.tests().permutation().p());
    object.put("hedges_g", c.effect().map(EffectSize::hedgesG).orElse(null));
    object.put("verdict", c.verdict().word());
    object.put("reasons", c.reasons().stream().map(reason -> Said.raw(reason.text())).toList());
    object.put("more", more(c));
    return object;
  }

  private static Map<String, Object> group(GroupFigures figures) {
    return Json.object(
        "name", figures.name(),
        "n", figures.n(),
        "mean", figures.meanGf(),
        "sd", Figures.orNull(figures.sdGf()));
  }

  private static void putWelch(Map<String, Object> object, Optional<Welch> welch) {
    object.put("ci95", ends(welch.map(Welch::ci95Gf)));
    object.put("welch_t", welch.map(Welch::t).orElse(null));
    object.put("welch_df", welch.map(Welch::degreesOfFreedom).orElse(null));
    object.put("welch_p", welch.map(Welch::p).orElse(null));
  }

  /** What the contract for scripts does not name. */
  private static Map<String, Object> more(Comparison c) {
    return Json.object(
        "unit", "gf",
        "decided_by", c.decision().decidedBy().word(),
        "decisive_p", c.decision().p(),
        "level", c.decision().level(),
        "paired", c.tests().paired().map(ComparisonJson::paired).orElse(null),
        "mann_whitney_method", c.tests().rankSum().method().word(),
        "hodges_lehmann_ci_confidence", c.tests().rankSum().ciGf().confidence(),
        "permutation_exact", c.tests().permutation().exact(),
        "permutation_relabellings", c.tests().permutation().relabellings(),
        "ratio", c.tests().ratio().map(Ratio::value).orElse(null),
        "ratio_ci95", ends(c.tests().ratio().map(Ratio::ci95)),
        "hedges_g_ci95", ends(c.effect().map(EffectSize::ci95)),
        "equivalence_margin", c.tests().equivalence().map(Equivalence::marginGf).orElse(null),
        "equivalence_p", c.tests().equivalence().map(Equivalence::p).orElse(null),
        "rig_limit", Figures.orNull(c.rigLimitGf()),
        "exceeds_rig", c.exceedsRig().orElse(null),
        "more_cuts", c.moreCuts().told().map(Said::raw).orElse(null));
  }

  private static Map<String, Object> paired(Paired pairs) {
    return Json.object(
        "pairs", pairs.pairs(),
        "difference", pairs.differenceGf(),
        "ci95", Figures.ends(pairs.ci95Gf()),
        "sd", pairs.sdGf(),
        "t", pairs.t(),
        "p", pairs.p(),
        "signed_rank_p", pairs.signedRankP());
  }

  static List<Double> ends(Optional<Interval> interval) {
    return interval.map(Figures::ends).orElse(null);
  }
}
