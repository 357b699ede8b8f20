package snick.verdict.study;

import java.util.Arrays;
import java.util.List;
import org.apache.commons.statistics.descriptive.Mean;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;
import org.apache.commons.statistics.distribution.FDistribution;
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
 * @param anova analysis of variance of the groups, gf²
 * @param meanGf mean of all cuts, gf
 * @param cutsPerGroup the n₀ of groups of unequal size; their size if all are equal
 * @param flagged readings that Grubbs' test flags in their group; all are kept
 */
public record RepeatabilityStudy(
    Anova anova, double meanGf, double cutsPerGroup, List<Grubbs> flagged) {
  private static final double TAIL = 0.025;

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
    return new RepeatabilityStudy(
        Anova.of(values),
        Mean.of(values.stream().flatMapToDouble(Arrays::stream).toArray()).getAsDouble(),
        meanSize(values),
        groups.stream().flatMap(g -> Grubbs.of(g).stream()).filter(Grubbs::flagged).toList());
  }

  /** The n₀ of unequal groups; their size if all are equal. */
  private static double meanSize(List<double[]> groups) {
    double all = groups.stream().mapToDouble(g -> g.length).sum();
    double squares = groups.stream().mapToDouble(g -> (double) g.length * g.length).sum();
    return (all - squares / all) / (groups.size() - 1);
  }

  /** Number of groups. */
  public int groups() {
    return anova.dfBetween() + 1;
  }

  /** Number of cuts. */
  public int cuts() {
    return anova.dfWithin() + groups();
  }

  /** Repeatability standard deviation, gf. */
  public double withinSdGf() {
    return Math.sqrt(anova.meanSquareWithin());
  }

  /** Its 95 % χ² interval, gf. */
  public Interval withinSdCi95Gf() {
    ChiSquaredDistribution chi = ChiSquaredDistribution.of(anova.dfWithin());
    return new Interval(
        Math.sqrt(anova.squaresWithin() / chi.inverseSurvivalProbability(TAIL)),
        Math.sqrt(anova.squaresWithin() / chi.inverseSurvivalProbability(1 - TAIL)),
        0.95);
  }

  /** Standard deviation between groups, gf; 0 if the mean squares give less. */
  public double betweenSdGf() {
    return Math.sqrt(betweenVariance());
  }

  /** Standard deviation of one cut in one group chosen at random, gf. */
  public double totalSdGf() {
    return Math.sqrt(betweenVariance() + anova.meanSquareWithin());
  }

  private double betweenVariance() {
    return Math.max(0, (anova.meanSquareBetween() - anova.meanSquareWithin()) / cutsPerGroup);
  }

  /** Intraclass correlation: variance between groups over all variance. */
  public double share() {
    return betweenVariance() / (betweenVariance() + anova.meanSquareWithin());
  }

  /** Its 95 % interval from F, exact for groups of equal size. */
  public Interval shareCi95() {
    FDistribution upper = FDistribution.of(anova.dfBetween(), anova.dfWithin());
    FDistribution lower = FDistribution.of(anova.dfWithin(), anova.dfBetween());
    return new Interval(
        share(anova.f() / upper.inverseSurvivalProbability(TAIL)),
        share(anova.f() * lower.inverseSurvivalProbability(TAIL)),
        0.95);
  }

  private double share(double f) {
    return Math.max(0, (f - 1) / (f + cutsPerGroup - 1));
  }

  /** What the verdicts need to know of the rig. */
  public RigRepeatability rig() {
    return new RigRepeatability(
        withinSdGf(), anova.dfWithin(), "study of " + cuts() + " cuts in " + groups() + " groups");
  }

  /** The study in words. */
  public Reason reason() {
    Phrase found =
        Phrase.of("reason.study")
            .with("cuts", Wording.cuts(cuts()))
            .with("groups", groups())
            .with("within", Wording.gf(withinSdGf()))
            .with("interval", Wording.range(withinSdCi95Gf()))
            .with("between", Wording.gf(betweenSdGf()))
            .with("p", Wording.p(anova.p()))
            .with("shown", Wording.gf(rig().smallestShownDifferenceGf(5)));
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
