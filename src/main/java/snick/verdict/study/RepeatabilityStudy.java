package snick.verdict.study;

import java.util.List;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;
import org.apache.commons.statistics.distribution.FDistribution;
import org.apache.commons.statistics.distribution.TDistribution;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;
import snick.verdict.comparison.Grubbs;
import snick.verdict.comparison.Reason;
import snick.verdict.comparison.RigRepeatability;
import snick.verdict.comparison.Wording;
import snick.verdict.statistic.Anova;
import snick.verdict.statistic.Interval;
import snick.verdict.statistic.Readings;

/**
 * One-way random-effects study: repeated cuts in groups (days, lots, set-ups), split into scatter
 * within a group (repeatability) and between groups, by the mean squares.
 *
 * @param groups number of groups
 * @param cuts number of cuts
 * @param meanGf mean of all cuts, gf
 * @param standardErrorGf standard error of that mean with groups as random, gf
 * @param f ratio of mean squares
 * @param p of that ratio if there were no scatter between groups
 * @param withinVariance repeatability variance, gf²
 * @param betweenVariance variance between groups, gf²; 0 if the mean squares give less
 * @param withinSdCi95Gf 95 % χ² interval of the repeatability standard deviation, gf
 * @param share intraclass correlation: between over between plus within
 * @param shareCi95 its 95 % interval from F, exact for groups of equal size
 * @param flagged readings that Grubbs' test flags in their group; all are kept
 */
public record RepeatabilityStudy(
    int groups,
    int cuts,
    double meanGf,
    double standardErrorGf,
    double f,
    double p,
    double withinVariance,
    double betweenVariance,
    Interval withinSdCi95Gf,
    double share,
    Interval shareCi95,
    List<Grubbs> flagged) {
  public RepeatabilityStudy {
    flagged = List.copyOf(flagged);
  }

  /**
   * Study of {@code groups}.
   *
   * @throws NotAccepted with fewer than 2 groups, fewer than 2 cuts in one, or no scatter at all
   */
  public static RepeatabilityStudy of(List<Readings> groups) {
    if (groups.size() < 2) {
      throw new NotAccepted("refused.too_few_groups", "n", groups.size());
    }
    groups.forEach(group -> group.atLeast(2));
    if (groups.stream().allMatch(Readings::allEqual)) {
      throw new NotAccepted("refused.no_group_scatters");
    }
    List<double[]> values = groups.stream().map(Readings::gramForce).toList();
    return of(
        Anova.of(values),
        meanSize(values),
        groups.stream().flatMapToDouble(g -> java.util.Arrays.stream(g.gramForce())).toArray(),
        groups.stream().flatMap(g -> Grubbs.of(g).stream()).filter(Grubbs::flagged).toList());
  }

  private static RepeatabilityStudy of(
      Anova anova, double size, double[] all, List<Grubbs> flagged) {
    double within = anova.meanSquareWithin();
    double between = Math.max(0, (anova.meanSquareBetween() - within) / size);
    FDistribution upper = FDistribution.of(anova.dfBetween(), anova.dfWithin());
    FDistribution lower = FDistribution.of(anova.dfWithin(), anova.dfBetween());
    double low = anova.f() / upper.inverseSurvivalProbability(0.025);
    double high = anova.f() * lower.inverseSurvivalProbability(0.025);
    ChiSquaredDistribution chi = ChiSquaredDistribution.of(anova.dfWithin());
    return new RepeatabilityStudy(
        anova.dfBetween() + 1,
        all.length,
        org.apache.commons.statistics.descriptive.Mean.of(all).getAsDouble(),
        Math.sqrt(anova.meanSquareBetween() / all.length),
        anova.f(),
        anova.p(),
        within,
        between,
        new Interval(
            Math.sqrt(anova.squaresWithin() / chi.inverseSurvivalProbability(0.025)),
            Math.sqrt(anova.squaresWithin() / chi.inverseSurvivalProbability(0.975)),
            0.95),
        between / (between + within),
        new Interval(share(low, size), share(high, size), 0.95),
        flagged);
  }

  private static double share(double f, double size) {
    return Math.max(0, (f - 1) / (f + size - 1));
  }

  /** The n₀ of unequal groups; their size if all are equal. */
  private static double meanSize(List<double[]> groups) {
    double all = groups.stream().mapToDouble(g -> g.length).sum();
    double squares = groups.stream().mapToDouble(g -> (double) g.length * g.length).sum();
    return (all - squares / all) / (groups.size() - 1);
  }

  /** Repeatability standard deviation, gf. */
  public double withinSdGf() {
    return Math.sqrt(withinVariance);
  }

  /** Standard deviation between groups, gf. */
  public double betweenSdGf() {
    return Math.sqrt(betweenVariance);
  }

  /** Standard deviation of one cut in one group chosen at random, gf. */
  public double totalSdGf() {
    return Math.sqrt(betweenVariance + withinVariance);
  }

  /** Half the 95 % interval of the mean with groups as random, gf. */
  public double meanHalfWidthGf() {
    return standardErrorGf * TDistribution.of(groups - 1).inverseSurvivalProbability(0.025);
  }

  /** What the verdicts need to know of the rig. */
  public RigRepeatability rig() {
    return new RigRepeatability(
        withinSdGf(), cuts - groups, "study of " + cuts + " cuts in " + groups + " groups");
  }

  /** The study in words. */
  public Reason reason() {
    Phrase found =
        Phrase.of(
            "reason.study",
            "cuts",
            Wording.cuts(cuts),
            "groups",
            groups,
            "within",
            Wording.gf(withinSdGf()),
            "interval",
            Wording.range(withinSdCi95Gf),
            "between",
            Wording.gf(betweenSdGf()),
            "p",
            Wording.p(p),
            "shown",
            Wording.gf(rig().smallestShownDifferenceGf(5)));
    List<String> outliers = flagged.stream().map(g -> Wording.gf(g.valueGf())).toList();
    return new Reason(
        flagged.isEmpty()
            ? found
            : Phrase.of("reason.study_outliers", "found", found, "outliers", outliers),
        Phrase.of("rule.study"),
        Phrase.of("unless.study"),
        Phrase.of("source.study"));
  }
}
