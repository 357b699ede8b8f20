package snick.cli.verdict;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import snick.cli.terminal.Figures;
import snick.cli.terminal.Said;
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
    Map<String, Object> group = new LinkedHashMap<>();
    group.put("name", figures.name());
    group.put("n", figures.n());
    group.put("mean", figures.meanGf());
    group.put("sd", Figures.orNull(figures.sdGf()));
    return group;
  }

  private static void putWelch(Map<String, Object> object, Optional<Welch> welch) {
    object.put("ci95", ends(welch.map(Welch::ci95Gf)));
    object.put("welch_t", welch.map(Welch::t).orElse(null));
    object.put("welch_df", welch.map(Welch::degreesOfFreedom).orElse(null));
    object.put("welch_p", welch.map(Welch::p).orElse(null));
  }

  /** What the contract for scripts does not name. */
  private static Map<String, Object> more(Comparison c) {
    Map<String, Object> more = new LinkedHashMap<>();
    more.put("unit", "gf");
    more.put("decided_by", word(c.decision().decidedBy()));
    more.put("decisive_p", c.decision().p());
    more.put("level", c.decision().level());
    more.put("paired", c.tests().paired().map(ComparisonJson::paired).orElse(null));
    more.put("mann_whitney_method", word(c.tests().rankSum().method()));
    more.put("hodges_lehmann_ci_confidence", c.tests().rankSum().ciGf().confidence());
    more.put("permutation_exact", c.tests().permutation().exact());
    more.put("permutation_relabellings", c.tests().permutation().relabellings());
    more.put("ratio", c.tests().ratio().map(Ratio::value).orElse(null));
    more.put("ratio_ci95", ends(c.tests().ratio().map(Ratio::ci95)));
    more.put("hedges_g_ci95", ends(c.effect().map(EffectSize::ci95)));
    more.put("equivalence_margin", c.tests().equivalence().map(Equivalence::marginGf).orElse(null));
    more.put("equivalence_p", c.tests().equivalence().map(Equivalence::p).orElse(null));
    more.put("rig_limit", Figures.orNull(c.rigLimitGf()));
    more.put("exceeds_rig", c.exceedsRig().orElse(null));
    more.put("more_cuts", c.moreCuts().told().map(Said::raw).orElse(null));
    return more;
  }

  private static Map<String, Object> paired(Paired pairs) {
    Map<String, Object> object = new LinkedHashMap<>();
    object.put("pairs", pairs.pairs());
    object.put("difference", pairs.differenceGf());
    object.put("ci95", Figures.ends(pairs.ci95Gf()));
    object.put("sd", pairs.sdGf());
    object.put("t", pairs.t());
    object.put("p", pairs.p());
    object.put("signed_rank_p", pairs.signedRankP());
    return object;
  }

  static List<Double> ends(Optional<Interval> interval) {
    return interval.map(Figures::ends).orElse(null);
  }

  private static String word(Enum<?> constant) {
    return constant.name().toLowerCase(Locale.ROOT);
  }
}
