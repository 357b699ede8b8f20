package snick.report.plot;

import java.util.Arrays;
import java.util.DoubleSummaryStatistics;
import java.util.List;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
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
 * @param individuals limits from the values themselves; of at least 3
 * @param averages exponentially weighted averages about zero error
 */
public record ControlCharts(
    List<Double> errorsPercent, IndividualsChart individuals, List<EwmaChart.Point> averages) {
  /** Fewest verifications from which limits can be drawn. */
  public static final int FEWEST = 3;

  private static final int WIDTH = 820;
  private static final int HEIGHT = 400;
  private static final double ROOM = 0.08;

  public ControlCharts {
    errorsPercent = List.copyOf(errorsPercent);
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
    double[] x = IntStream.rangeClosed(1, errorsPercent.size()).asDoubleStream().toArray();
    double[] upper = averages.stream().mapToDouble(EwmaChart.Point::upper).toArray();
    double[] lower = averages.stream().mapToDouble(EwmaChart.Point::lower).toArray();
    double[] average = averages.stream().mapToDouble(EwmaChart.Point::average).toArray();
    double[] each = errorsPercent.stream().mapToDouble(v -> v).toArray();
    ForceChart chart = chart(words, upper, lower);
    chart.level(words.say("draw.limits"), Look.INK, Pen.DASHED, individuals.upper());
    chart.level("lower", Look.INK, Pen.DASHED, individuals.lower()).setShowInLegend(false);
    chart.level(words.say("draw.mean"), Look.INK, Pen.MEDIUM, individuals.centre());
    chart
        .line(words.say("draw.each_check"), Look.BLUE, Pen.DOTTED, x, each)
        .setMarker(SeriesMarkers.CIRCLE)
        .setMarkerColor(Look.BLUE);
    chart
        .line(words.say("draw.weighted"), Look.VERMILION, Pen.MEDIUM, x, average)
        .setMarker(SeriesMarkers.DIAMOND)
        .setMarkerColor(Look.VERMILION);
    chart.line(words.say("draw.its_limits"), Look.VERMILION, Pen.DASH_DOTTED, x, upper);
    chart.line("its lower", Look.VERMILION, Pen.DASH_DOTTED, x, lower).setShowInLegend(false);
    return chart.alone(WIDTH, HEIGHT);
  }

  private ForceChart chart(Words words, double[] upper, double[] lower) {
    DoubleSummaryStatistics shown = new DoubleSummaryStatistics();
    errorsPercent.forEach(shown::accept);
    DoubleStream.of(upper).forEach(shown);
    DoubleStream.of(lower).forEach(shown);
    DoubleStream.of(individuals.lower(), individuals.upper()).forEach(shown);
    double room = ROOM * (shown.getMax() - shown.getMin());
    return new ForceChart(words, words.say("draw.checks"), words.say("draw.checks_axis"))
        .quantity(words.say("draw.error"), shown.getMin() - room, shown.getMax() + room)
        .fromTo(0.5, errorsPercent.size() + 0.5)
        .wholeNumbers()
        .namesBeside();
  }
}
