package snick.report.plot;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.knowm.xchart.XYChart;
import org.knowm.xchart.XYSeries;
import org.knowm.xchart.style.markers.SeriesMarkers;
import snick.force.check.EwmaChart;
import snick.force.check.IndividualsChart;
import snick.phrase.Words;
import snick.store.record.Verification;

/**
 * Check masses over time: individual values and their exponentially weighted average, in % of the
 * known force.
 *
 * @param errorsPercent shown less known, oldest first
 * @param limitsPercent the limit that each was judged by
 * @param individuals limits from the values themselves; of at least 3
 * @param averages exponentially weighted averages about zero error
 */
public record ControlCharts(
    List<Double> errorsPercent,
    List<Double> limitsPercent,
    IndividualsChart individuals,
    List<EwmaChart.Point> averages) {
  /** Fewest verifications from which limits can be drawn. */
  public static final int FEWEST = 3;

  public ControlCharts {
    errorsPercent = List.copyOf(errorsPercent);
    limitsPercent = List.copyOf(limitsPercent);
    averages = List.copyOf(averages);
  }

  /**
   * The charts of {@code checks}, at least {@value #FEWEST}. The average starts at no error: what
   * the calibration promises.
   */
  public static ControlCharts of(List<Verification> checks) {
    double[] errors = checks.stream().mapToDouble(ControlCharts::errorPercent).toArray();
    IndividualsChart individuals = IndividualsChart.of(errors);
    double sigma = Math.max(individuals.sigma(), Double.MIN_NORMAL);
    return new ControlCharts(
        Arrays.stream(errors).boxed().toList(),
        checks.stream().map(v -> 100 * v.limit().newtons() / v.known().value().newtons()).toList(),
        individuals,
        EwmaChart.usual(0, sigma).chart(errors));
  }

  /** Shown less known, % of known. */
  public static double errorPercent(Verification check) {
    double known = check.known().value().newtons();
    return 100 * (check.shown().value().newtons() - known) / known;
  }

  /** Both in one picture. */
  public Picture picture(Words words) {
    int n = errorsPercent.size();
    double[] x = IntStream.rangeClosed(1, n).asDoubleStream().toArray();
    XYChart chart =
        Look.chart(
            words.say("draw.checks"), words.say("draw.checks_axis"), words.say("draw.error"));
    chart.getStyler().setXAxisMin(0.5).setXAxisMax(n + 0.5);
    flat(chart, words.say("draw.limits"), individuals.upper(), x, Look.Line.DASHED);
    flat(chart, "lower", individuals.lower(), x, Look.Line.DASHED).setShowInLegend(false);
    flat(chart, words.say("draw.mean"), individuals.centre(), x, Look.Line.SOLID);
    XYSeries values =
        Look.line(
            chart,
            words.say("draw.each_check"),
            x,
            array(errorsPercent),
            Look.BLUE,
            Look.Line.DOTTED);
    values.setMarker(SeriesMarkers.CIRCLE).setMarkerColor(Look.BLUE);
    XYSeries average =
        Look.line(
            chart,
            words.say("draw.weighted"),
            x,
            averages.stream().mapToDouble(EwmaChart.Point::average).toArray(),
            Look.VERMILION,
            Look.Line.SOLID);
    average.setMarker(SeriesMarkers.DIAMOND).setMarkerColor(Look.VERMILION);
    Look.line(
        chart,
        words.say("draw.its_limits"),
        x,
        averages.stream().mapToDouble(EwmaChart.Point::upper).toArray(),
        Look.VERMILION,
        Look.Line.DASH_DOTTED);
    Look.line(
            chart,
            "its lower",
            x,
            averages.stream().mapToDouble(EwmaChart.Point::lower).toArray(),
            Look.VERMILION,
            Look.Line.DASH_DOTTED)
        .setShowInLegend(false);
    return new Picture(chart, words);
  }

  private static XYSeries flat(
      XYChart chart, String name, double level, double[] x, Look.Line line) {
    double[] y = new double[x.length];
    Arrays.fill(y, level);
    return Look.line(chart, name, x, y, Look.INK, line);
  }

  private static double[] array(List<Double> values) {
    return values.stream().mapToDouble(v -> v).toArray();
  }
}
