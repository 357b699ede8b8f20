package snick.verdict.study;

import java.util.ArrayList;
import java.util.List;
import snick.force.check.EwmaChart;
import snick.verdict.comparison.Reason;
import snick.verdict.comparison.Wording;
import snick.verdict.statistic.NotComparable;
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
  public enum Limit {
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
   * @throws NotComparable if the baseline has fewer than 8 readings or does not scatter
   */
  public static ReferenceChart of(Readings baseline, Readings later) {
    if (baseline.atLeast(LEAST).allEqual()) {
      throw new NotComparable(
          baseline.name() + " does not scatter, so it sets no limits: check the resolution");
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
        Wording.cuts(weighted.size())
            + " against limits of "
            + Wording.gf(limits.lower())
            + " to "
            + Wording.gf(limits.upper())
            + ": "
            + (signals.size() == 1 ? "1 signal" : signals.size() + " signals")
            + "; "
            + Wording.number(limits.expectedFalseAlarms(weighted.size()))
            + " false alarms are to be expected among as many of an unchanged edge",
        "a signal is a value, a moving range or a weighted mean beyond its limit; limits are widened"
            + " for a baseline of "
            + Wording.cuts(limits.count())
            + ", so that of 20 cuts of an unchanged edge that scatters normally at most 1 run in 20"
            + " gives a signal",
        limits.count() < SETTLED
            ? "a baseline of " + SETTLED + " cuts or more, which narrows the limits"
            : "a new baseline after a change that was meant",
        "prediction limits: Hahn 1970; why: Quesenberry 1993; charts: NIST/SEMATECH e-Handbook"
            + " 6.3.2.2 and 6.3.2.4");
  }
}
