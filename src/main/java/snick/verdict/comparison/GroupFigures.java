package snick.verdict.comparison;

import java.util.Optional;
import java.util.OptionalDouble;
import org.apache.commons.statistics.distribution.TDistribution;
import snick.phrase.Phrase;
import snick.verdict.statistic.Interval;
import snick.verdict.statistic.Readings;

/**
 * Figures of one group of cuts.
 *
 * @param name of the group
 * @param n number of cuts
 * @param meanGf arithmetic mean, gf
 * @param sdGf sample standard deviation (n − 1), gf; empty with one cut
 * @param ci95Gf 95 % t interval of the mean, gf; empty with one cut
 * @param scatter against the rig's repeatability; empty with one cut or if that is not known
 * @param outlier the reading farthest out, if Grubbs' test flags it; it stays in every figure
 */
public record GroupFigures(
    String name,
    int n,
    double meanGf,
    OptionalDouble sdGf,
    Optional<Interval> ci95Gf,
    Optional<ScatterAgainstRig> scatter,
    Optional<Grubbs> outlier) {

  /**
   * Why the scatter counts as more than the rig's, or not; empty if nothing is known of the rig.
   */
  public Optional<Reason> scatterReason() {
    return scatter.map(
        s ->
            new Reason(
                Phrase.of(s.beyondRig() ? "reason.scatter_more" : "reason.scatter_like_rig")
                    .with("name", name)
                    .with("sd", Wording.gf(sdGf.orElseThrow()))
                    .with("rig", Wording.gf(s.rig().sdGf()))
                    .with("ratio", Wording.number(s.ratio()))
                    .with("p", Wording.p(s.p())),
                Phrase.of("rule.scatter"),
                Phrase.of("unless.scatter"),
                Phrase.of("source.variances")));
  }

  /** Figures of {@code readings}; {@code rig} if its repeatability is known. */
  public static GroupFigures of(Readings readings, Optional<RigRepeatability> rig) {
    int n = readings.count();
    if (n < 2) {
      return new GroupFigures(
          readings.name(),
          n,
          readings.meanGf(),
          OptionalDouble.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty());
    }
    double sd = readings.sdGf();
    double half = TDistribution.of(n - 1).inverseSurvivalProbability(0.025) * sd / Math.sqrt(n);
    double mean = readings.meanGf();
    return new GroupFigures(
        readings.name(),
        n,
        mean,
        OptionalDouble.of(sd),
        Optional.of(new Interval(mean - half, mean + half, 0.95)),
        rig.map(r -> ScatterAgainstRig.of(sd, n, r)),
        Grubbs.of(readings).filter(Grubbs::flagged));
  }
}
