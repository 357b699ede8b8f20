package snick.report.plot;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.knowm.xchart.style.markers.SeriesMarkers;
import snick.force.check.EwmaChart;
import snick.phrase.Words;
import snick.quantity.Force;
import snick.verdict.statistic.Readings;
import snick.verdict.study.ReferenceChart;
import snick.verdict.study.ReferenceLimits;

/** Draws the control chart of a reference edge. */
public final class ControlPlot {
  private static final int WIDTH = 900;
  private static final int HEIGHT = 430;
  private static final double ROOM = 1.15;

  private ControlPlot() {}

  private static void marked(ForceChart chart, String name, int[] places, double[] values) {
    if (places.length > 0) {
      chart.points(
          name,
          Look.VERMILION,
          Pen.HALO,
          Arrays.stream(places).mapToDouble(i -> i + 1).toArray(),
          Arrays.stream(places).mapToDouble(i -> values[i]).toArray());
    }
  }

  private static double[] numbers(int count) {
    return IntStream.rangeClosed(1, count).mapToDouble(i -> i).toArray();
  }

  /**
   * Cuts of a reference edge after its baseline, against the limits that the baseline set.
   *
   * @param later in the order made
   * @param words the language
   */
  public static Picture ofReferenceEdge(
      String blade, ReferenceChart control, Readings later, Words words) {
    double unit = Force.NEWTONS_PER_GRAM_FORCE;
    ReferenceLimits limits = control.limits();
    double[] values = Arrays.stream(later.gramForce()).map(v -> v * unit).toArray();
    double low = Math.min(limits.lower() * unit, Arrays.stream(values).min().orElseThrow());
    double high = Math.max(limits.upper() * unit, Arrays.stream(values).max().orElseThrow());
    double room = (ROOM - 1) * (high - low);
    ForceChart chart =
        new ForceChart(
                words,
                words.say("draw.reference", "blade", Shown.shortened(blade)),
                words.say("draw.reference_axis"))
            .newtons(low - room, high + room)
            .fromTo(0, values.length + 1)
            .wholeNumbers();
    chart.level(words.say("draw.centre"), Look.INK, Pen.MEDIUM, limits.centre() * unit);
    chart.level(words.say("draw.cut_limits"), Look.VERMILION, Pen.DASHED, limits.lower() * unit);
    chart.level("upper", Look.VERMILION, Pen.DASHED, limits.upper() * unit).setShowInLegend(false);
    double[] x = numbers(values.length);
    double[] weighted =
        control.weighted().stream()
            .mapToDouble(EwmaChart.Point::average)
            .map(v -> v * unit)
            .toArray();
    chart.line(words.say("draw.weighted"), Look.PURPLE, Pen.DOTTED, x, weighted);
    chart.points(words.say("draw.cut"), Look.BLUE, SeriesMarkers.CIRCLE, x, values);
    int[] signals =
        control.signals().stream().mapToInt(ReferenceChart.Signal::index).distinct().toArray();
    marked(chart, words.say("draw.signal"), signals, values);
    return chart.alone(
        words.say("draw.reference", "blade", Shown.shortened(blade)),
        words.say("draw.reference_told", "what", control.reason().evidence()),
        WIDTH,
        HEIGHT);
  }
}
