package snick.report.plot;

import java.awt.Color;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.knowm.xchart.XYChart;
import org.knowm.xchart.style.markers.SeriesMarkers;
import snick.force.budget.Calibration;
import snick.force.budget.CombinedUncertainty;
import snick.force.budget.Evaluation;
import snick.force.reading.Deflection;
import snick.force.reading.Direction;
import snick.phrase.Words;
import snick.quantity.Force;

/** Charts of a calibration: residuals of its readings, and its uncertainty over the range. */
public final class CalibrationCharts {
  private static final int ABOUT_POINTS = 20;
  private static final int SOURCES_SHOWN = 4;
  private static final Color[] COLORS = {Look.BLUE, Look.VERMILION, Look.GREEN, Look.PURPLE};
  private static final Look.Line[] LINES = {
    Look.Line.DASHED, Look.Line.DOTTED, Look.Line.DASH_DOTTED, Look.Line.DASHED
  };

  private CalibrationCharts() {}

  /** Expanded uncertainty over the range, and its largest sources. */
  public static Picture budget(Calibration calibration, Words words) {
    List<CombinedUncertainty> over = over(calibration);
    double[] x = over.stream().mapToDouble(u -> gramForce(u.newtons())).toArray();
    XYChart chart =
        Look.chart(
            words.say("draw.budget"), words.say("draw.force_axis"), words.say("draw.budget_axis"));
    Look.line(
        chart,
        words.say("draw.expanded"),
        x,
        over.stream().mapToDouble(u -> gramForce(u.expandedNewtons())).toArray(),
        Look.INK,
        Look.Line.SOLID);
    List<Integer> largest = largest(over.get(over.size() - 1));
    for (int i = 0; i < largest.size(); i++) {
      int part = largest.get(i);
      Look.line(
          chart,
          words.named("budget", over.get(0).parts().get(part).source()),
          x,
          over.stream()
              .mapToDouble(u -> gramForce(u.parts().get(part).standardUncertaintyNewtons()))
              .toArray(),
          COLORS[i],
          LINES[i]);
    }
    return new Picture(chart, words);
  }

  /** The uncertainty at round forces over the range, in gf, and at its end. */
  private static List<CombinedUncertainty> over(Calibration calibration) {
    double to = gramForce(calibration.range().to().newtons());
    double step = round(to / ABOUT_POINTS);
    List<CombinedUncertainty> over = new ArrayList<>();
    for (int i = 0; i * step < to * (1 - 1e-9); i++) {
      over.add(at(calibration, i * step));
    }
    over.add(at(calibration, to));
    return over;
  }

  private static CombinedUncertainty at(Calibration calibration, double gramForce) {
    double newtons = Force.ofGramForce(gramForce).newtons();
    return new CombinedUncertainty(newtons, calibration.contributions(newtons, 0));
  }

  /** 1, 2 or 5 times a power of ten, not below {@code step}. */
  private static double round(double step) {
    double power = Math.pow(10, Math.floor(Math.log10(step)));
    double leading = step / power;
    return power * (leading <= 1 ? 1 : leading <= 2 ? 2 : leading <= 5 ? 5 : 10);
  }

  private static List<Integer> largest(CombinedUncertainty at) {
    List<Integer> order = new ArrayList<>();
    for (int i = 0; i < at.parts().size(); i++) {
      if (at.parts().get(i).standardUncertaintyNewtons() > 0) {
        order.add(i);
      }
    }
    order.sort(
        Comparator.comparingDouble((Integer i) -> -at.parts().get(i).standardUncertaintyNewtons()));
    return order.subList(0, Math.min(SOURCES_SHOWN, order.size()));
  }

  /** Readings less curve, rising and falling apart, between the limits of expanded uncertainty. */
  public static Picture residuals(Calibration calibration, Evaluation evaluation, Words words) {
    XYChart chart =
        Look.chart(
            words.say("draw.residuals"),
            words.say("draw.force_axis"),
            words.say("draw.residuals_axis"));
    List<CombinedUncertainty> over = over(calibration);
    double[] x = over.stream().mapToDouble(u -> gramForce(u.newtons())).toArray();
    double[] limit = over.stream().mapToDouble(u -> gramForce(u.expandedNewtons())).toArray();
    double[] lower = over.stream().mapToDouble(u -> -gramForce(u.expandedNewtons())).toArray();
    Look.line(chart, words.say("draw.expanded"), x, limit, Look.INK, Look.Line.DASHED);
    Look.line(chart, "lower", x, lower, Look.INK, Look.Line.DASHED).setShowInLegend(false);
    addResiduals(chart, calibration, evaluation, Direction.UP, words);
    addResiduals(chart, calibration, evaluation, Direction.DOWN, words);
    return new Picture(chart, words);
  }

  private static void addResiduals(
      XYChart chart,
      Calibration calibration,
      Evaluation evaluation,
      Direction direction,
      Words words) {
    List<Deflection> chosen =
        evaluation.deflections().stream().filter(d -> d.direction() == direction).toList();
    if (chosen.isEmpty()) {
      return;
    }
    boolean up = direction == Direction.UP;
    Look.points(
        chart,
        words.say(up ? "draw.rising" : "draw.falling"),
        chosen.stream().mapToDouble(d -> gramForce(d.newtons())).toArray(),
        chosen.stream().mapToDouble(d -> residual(d, calibration)).toArray(),
        up ? Look.BLUE : Look.VERMILION,
        up ? SeriesMarkers.TRIANGLE_UP : SeriesMarkers.TRIANGLE_DOWN);
  }

  private static double residual(Deflection point, Calibration calibration) {
    double counts = point.counts() - calibration.curve().deflectionCounts(point.newtons());
    return gramForce(counts / calibration.curve().slopeCountsPerNewton(point.newtons()));
  }

  public static double gramForce(double newtons) {
    return newtons / Force.NEWTONS_PER_GRAM_FORCE;
  }
}
