package snick.verdict.study;

import java.util.ArrayList;
import java.util.List;
import snick.force.check.EwmaChart;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;
import snick.quantity.Worded;
import snick.verdict.comparison.Reason;
import snick.verdict.comparison.Wording;
import snick.verdict.statistic.Readings;

/**
 * Control chart of a reference edge with one filament lot: single values, their moving ranges, and
 * their weighted mean, all against limits that a baseline of the same edge and lot has set.
 *
 * @param limits limits of single values and moving ranges, gf
 * @param weighted weighted mean after each later value with its limits, gf
 * @param signals later values that stand outside a limit, in order
 */
public record ReferenceChart(
    ReferenceLimits limits, List<EwmaChart.Point> weighted, List<Signal> signals) {
  /** Fewest cuts that may set limits (common practice, no source). */
  public static final int LEAST = 8;

  private static final int SETTLED = 20;

  /** Which limit was crossed. */
  public enum Limit implements Worded {
    VALUE,
    MOVING_RANGE,
    WEIGHTED_MEAN
  }

  /**
   * A value outside a limit.
   *
   * @param index place of the value among the later ones, from 0
   * @param limit which limit
   */
  public record Signal(int index, Limit limit) {}

  public ReferenceChart {
    weighted = List.copyOf(weighted);
    signals = List.copyOf(signals);
  }

  /**
   * Chart of {@code later} readings in the order made, against limits from {@code baseline}.
   *
   * @throws NotAccepted if the baseline has fewer than 8 readings or does not scatter
   */
  public static ReferenceChart of(Readings baseline, Readings later) {
    if (baseline.atLeast(LEAST).allEqual()) {
      throw new NotAccepted("refused.baseline_does_not_scatter", "name", baseline.name());
    }
    ReferenceLimits limits = ReferenceLimits.of(baseline, ReferenceLimits.USUAL_LEVEL);
    double[] values = later.gramForce();
    List<EwmaChart.Point> weighted = weighted(limits, values);
    double lower = limits.lower();
    double upper = limits.upper();
    double upperRange = limits.upperRange();
    List<Signal> signals = new ArrayList<>();
    for (int i = 0; i < values.length; i++) {
      boolean jumped = i > 0 && Math.abs(values[i] - values[i - 1]) > upperRange;
      note(signals, i, Limit.VALUE, !(values[i] >= lower && values[i] <= upper));
      note(signals, i, Limit.MOVING_RANGE, jumped);
      note(signals, i, Limit.WEIGHTED_MEAN, !weighted.get(i).within());
    }
    return new ReferenceChart(limits, weighted, signals);
  }

  private static List<EwmaChart.Point> weighted(ReferenceLimits limits, double[] values) {
    EwmaChart chart = EwmaChart.usual(limits.centre(), limits.sd());
    List<EwmaChart.Point> points = new ArrayList<>();
    for (EwmaChart.Point point : chart.chart(values)) {
      double half = limits.weightedHalfWidth(chart.lambda(), points.size() + 1);
      points.add(
          new EwmaChart.Point(point.average(), limits.centre() - half, limits.centre() + half));
    }
    return points;
  }

  private static void note(List<Signal> signals, int index, Limit limit, boolean outside) {
    if (outside) {
      signals.add(new Signal(index, limit));
    }
  }

  /** The chart in words. */
  public Reason reason() {
    return new Reason(
        Phrase.count("reason.chart", signals.size())
            .with("cuts", Wording.cuts(weighted.size()))
            .with("low", Wording.gf(limits.lower()))
            .with("high", Wording.gf(limits.upper()))
            .with("false", Wording.number(limits.expectedFalseAlarms(weighted.size()))),
        Phrase.of("rule.chart", "cuts", Wording.cuts(limits.count())),
        limits.count() < SETTLED
            ? Phrase.of("unless.chart_longer", "n", SETTLED)
            : Phrase.of("unless.chart_anew"),
        Phrase.of("source.chart"));
  }
}
