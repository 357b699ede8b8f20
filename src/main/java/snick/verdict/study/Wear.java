package snick.verdict.study;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.apache.commons.statistics.distribution.TDistribution;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;
import snick.verdict.comparison.Reason;
import snick.verdict.comparison.Wording;
import snick.verdict.statistic.Interval;
import snick.verdict.statistic.StraightLine;

/** How the force rises with work done: a straight line. */
public sealed interface Wear {
  /** Why. */
  Reason reason();

  /**
   * One cut after some work.
   *
   * @param work work done since sharpening, 0 to 1e9, in the unit of the study
   * @param gramForce cut-through force, gf
   */
  record Point(double work, double gramForce) {
    public Point {
      if (!(work >= 0 && work <= 1e9) || !Double.isFinite(gramForce)) {
        throw new NotAccepted("refused.wear_point", "work", work, "force", gramForce);
      }
    }
  }

  /**
   * What was cut, and how it was counted.
   *
   * @param unit for example metres, or cuts
   * @param material for example the cardboard
   */
  record Work(String unit, String material) {}

  /**
   * The force rises with work.
   *
   * @param sharpGf force at no work, gf
   * @param risePerUnitGf rise per unit of work, gf
   * @param risePerUnitCi95Gf its 95 % interval, gf
   * @param halfGainAt work at which half of the gain is lost; empty if the force of the dull edge
   *     was not given
   */
  record Rising(
      double sharpGf,
      double risePerUnitGf,
      Interval risePerUnitCi95Gf,
      Optional<HalfGain> halfGainAt,
      Reason reason)
      implements Wear {}

  /**
   * Work at which half of what sharpening gained is lost.
   *
   * @param work estimate, in the unit of the study
   * @param ci95 95 % interval (E. C. Fieller 1954); the dull force is taken as known
   * @param extrapolated whether the estimate lies beyond the work done
   */
  record HalfGain(double work, Interval ci95, boolean extrapolated) {}

  /** No rise was shown. */
  record NotShown(Interval risePerUnitCi95Gf, Reason reason) implements Wear {}

  /**
   * Wear over {@code points}.
   *
   * @param dullGf force before the sharpening, gf, if known
   * @throws NotAccepted with fewer than 3 points, or with all at the same work
   */
  static Wear of(List<Point> points, Work work, Optional<Double> dullGf) {
    double[] x = points.stream().mapToDouble(Point::work).toArray();
    double[] y = points.stream().mapToDouble(Point::gramForce).toArray();
    if (x.length < 3 || java.util.Arrays.stream(x).distinct().count() < 2) {
      throw new NotAccepted(
          Phrase.of("refused.wear_too_few")
              .with("n", x.length)
              .with("amounts", java.util.Arrays.stream(x).distinct().count()));
    }
    StraightLine line = StraightLine.through(x, y);
    double t = TDistribution.of(line.degreesOfFreedom()).inverseSurvivalProbability(0.025);
    double half = t * Math.sqrt(line.slopeVariance());
    Interval rise = new Interval(line.slope() - half, line.slope() + half, 0.95);
    double most = java.util.Arrays.stream(x).max().orElseThrow();
    if (!(rise.low() > 0)) {
      return new NotShown(rise, told(line, rise, work, Phrase.of("reason.wear_none")));
    }
    Optional<HalfGain> halfGain = dullGf.flatMap(dull -> halfGain(line, t, dull, most));
    Phrase end =
        halfGain
            .map(
                h ->
                    Phrase.of(h.extrapolated() ? "reason.wear_half_beyond" : "reason.wear_half")
                        .with("work", short3(h.work()))
                        .with("low", short3(h.ci95().low()))
                        .with("high", short3(h.ci95().high()))
                        .with("unit", work.unit()))
            .orElseGet(() -> Phrase.of("reason.wear_no_half"));
    return new Rising(line.intercept(), line.slope(), rise, halfGain, told(line, rise, work, end));
  }

  private static Optional<HalfGain> halfGain(
      StraightLine line, double t, double dullGf, double mostWork) {
    double gain = dullGf - line.intercept();
    if (!(gain > 0)) {
      return Optional.empty();
    }
    double g = t * t * line.slopeVariance();
    double squared = line.slope() * line.slope() - g;
    double cross = gain * line.slope() + t * t * line.covariance();
    double root =
        Math.sqrt(
            Math.max(
                0, cross * cross - squared * (gain * gain - t * t * line.interceptVariance())));
    double at = gain / line.slope() / 2;
    return Optional.of(
        new HalfGain(
            at,
            new Interval((cross - root) / squared / 2, (cross + root) / squared / 2, 0.95),
            at > mostWork));
  }

  private static Reason told(StraightLine line, Interval rise, Work work, Phrase end) {
    return new Reason(
        Phrase.of("reason.wear")
            .with("cuts", Wording.cuts(line.degreesOfFreedom() + 2))
            .with("change", short3(line.slope()))
            .with("unit", work.unit())
            .with("material", work.material())
            .with("low", short3(rise.low()))
            .with("high", short3(rise.high()))
            .with("end", end),
        Phrase.of("rule.wear"),
        Phrase.of("unless.wear"),
        Phrase.of("source.wear"));
  }

  private static String short3(double value) {
    return String.format(Locale.ROOT, "%.3g", value).replace('-', '−');
  }
}
