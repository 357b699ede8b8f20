package snick.report.plot;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.util.List;
import java.util.Locale;
import java.util.function.DoubleFunction;
import org.knowm.xchart.AnnotationText;
import org.knowm.xchart.XYChart;
import org.knowm.xchart.XYChartBuilder;
import org.knowm.xchart.XYSeries;
import org.knowm.xchart.style.AxesChartStyler.TextAlignment;
import org.knowm.xchart.style.Styler;
import org.knowm.xchart.style.XYStyler;
import org.knowm.xchart.style.lines.SeriesLines;
import org.knowm.xchart.style.markers.Marker;
import org.knowm.xchart.style.markers.SeriesMarkers;
import snick.phrase.Words;
import snick.quantity.Force;

/** An XY chart in the look of all pictures. */
final class ForceChart {
  /** Characters that are not seen: zero width non-joiner and joiner of Unicode. */
  private static final String NOTHING = "\u200c";

  private static final String JOINER = "\u200d";

  /** Size of a mark. */
  static final int MARK = 9;

  private static final int FONT_SIZE = 14;
  private static final BasicStroke THIN = new BasicStroke(1);

  private final Words words;
  private final XYChart chart;
  private boolean withGramForce;

  ForceChart(Words words, String title, String xTitle) {
    this.words = words;
    chart = new XYChartBuilder().title(title).xAxisTitle(xTitle).build();
    XYStyler style = chart.getStyler();
    fonts(style);
    style.setChartBackgroundColor(Color.WHITE).setPlotBackgroundColor(Color.WHITE);
    style.setPlotBorderColor(Pen.GREY).setLegendVisible(false);
    style.setLegendPosition(Styler.LegendPosition.OutsideS);
    style.setPlotGridLinesColor(Pen.LIGHT_GREY).setPlotGridLinesStroke(THIN);
    style.setErrorBarsColorSeriesColor(true);
    style.setAxisTickMarksColor(Pen.GREY).setAxisTickMarksStroke(THIN);
    style.setLocale(Locale.ROOT);
    style.setAxisTitlePadding(9).setYAxisTickMarkSpacingHint(50).setXAxisTickMarkSpacingHint(90);
    style.setAxisTicksLineVisible(false).setPlotMargin(0);
    style.setxAxisTickLabelsFormattingFunction(ForceChart::tick);
    style.setyAxisTickLabelsFormattingFunction(ForceChart::tick);
    style.setPlotContentSize(1).setMarkerSize(MARK).setChartPadding(8);
    style.setYAxisLabelAlignment(TextAlignment.Right);
  }

  /** Puts the names of the series beside the chart, where many or long ones have room. */
  ForceChart namesBeside() {
    chart.getStyler().setLegendPosition(Styler.LegendPosition.OutsideE);
    return this;
  }

  /** As many digits as needed, up to four after the point. */
  private static String tick(double value) {
    String text = Shown.fixed(value, 4);
    return text.replaceFirst("0+$", "").replaceFirst("\\.$", "");
  }

  private static void fonts(XYStyler style) {
    Font plain = new Font(Font.SANS_SERIF, Font.PLAIN, FONT_SIZE);
    Font bold = new Font(Font.SANS_SERIF, Font.BOLD, FONT_SIZE);
    style.setBaseFont(plain).setChartTitleFont(bold.deriveFont(FONT_SIZE + 1f));
    style.setLegendFont(plain).setAnnotationTextFont(plain);
    style.setAxisTitleFont(plain).setAxisTickLabelsFont(plain);
  }

  /** Shows newtons on the left from {@code low} to {@code high}, the same in gf on the right. */
  ForceChart newtons(double low, double high) {
    chart.setYAxisTitle(words.say("draw.force", "unit", "N"));
    chart.setYAxisGroupTitle(1, words.say("draw.force", "unit", "gf"));
    XYStyler style = chart.getStyler();
    style.setYAxisGroupPosition(1, Styler.YAxisPosition.Right);
    withGramForce = true;
    range(0, low, high);
    range(1, low / Force.NEWTONS_PER_GRAM_FORCE, high / Force.NEWTONS_PER_GRAM_FORCE);
    return this;
  }

  /** Shows differences of force in mN on the left, in gf on the right, the same to both sides. */
  ForceChart differences(double mostNewtons) {
    newtons(-mostNewtons, mostNewtons);
    chart.setYAxisTitle(words.say("draw.difference", "unit", "mN"));
    chart.setYAxisGroupTitle(1, words.say("draw.difference", "unit", "gf"));
    range(0, -mostNewtons * 1e3, mostNewtons * 1e3);
    return this;
  }

  private void range(int group, double low, double high) {
    chart.getStyler().setYAxisMin(group, low).setYAxisMax(group, high);
  }

  /** Shows another quantity. */
  ForceChart quantity(String title, double low, double high) {
    chart.setYAxisTitle(title);
    range(0, low, high);
    return this;
  }

  ForceChart fromTo(double xLow, double xHigh) {
    chart.getStyler().setXAxisMin(xLow).setXAxisMax(xHigh);
    return this;
  }

  /** Leaves the numbers of the x axis away. */
  ForceChart withoutNumbers() {
    chart.getStyler().setXAxisTicksVisible(false).setPlotGridVerticalLinesVisible(false);
    return this;
  }

  /** Leaves numbers below zero away, where no force can be. */
  ForceChart fromZero() {
    chart.getStyler().setyAxisTickLabelsFormattingFunction(v -> v < 0 ? "" : tick(v));
    return this;
  }

  /** Numbers places along the x axis in whole numbers. */
  ForceChart wholeNumbers() {
    return wholeNumbers(ForceChart::tick);
  }

  /** The same, each called as {@code named} says. */
  ForceChart wholeNumbers(DoubleFunction<String> named) {
    chart
        .getStyler()
        .setxAxisTickLabelsFormattingFunction(
            v -> {
              String label = Math.abs(v - Math.rint(v)) < 1e-6 ? named.apply(v) : "";
              return label.isEmpty() ? unseen(v) : label + NOTHING.repeat(Long.SIZE);
            });
    return this;
  }

  /**
   * Another nothing at each place, for the library leaves out all labels if two are alike; shorter
   * than any that is seen, for the longest tells it how high labels are.
   */
  private static String unseen(double place) {
    return Integer.toBinaryString(Double.hashCode(place))
        .replace("0", NOTHING)
        .replace("1", JOINER);
  }

  /** A level line all across. */
  XYSeries level(String name, Color colour, BasicStroke stroke, double y) {
    XYStyler style = chart.getStyler();
    double[] ends = {style.getXAxisMin(), style.getXAxisMax()};
    return line(name, colour, stroke, ends, new double[] {y, y});
  }

  XYSeries line(String name, Color colour, BasicStroke stroke, double[] x, double[] y) {
    XYSeries series = chart.addSeries(name, x, y);
    series.setMarker(SeriesMarkers.NONE);
    series.setLineColor(colour).setLineStyle(stroke);
    return series;
  }

  XYSeries points(String name, Color colour, Marker marker, double[] x, double[] y) {
    return pointed(chart.addSeries(name, x, y), colour, marker);
  }

  /** Points with intervals that reach {@code half} to both sides. */
  XYSeries points(String name, Color colour, Marker marker, double[] x, double[] y, double[] half) {
    return pointed(chart.addSeries(name, x, y, half), colour, marker);
  }

  private static XYSeries pointed(XYSeries series, Color colour, Marker marker) {
    series.setMarker(marker);
    series.setMarkerColor(colour).setLineColor(colour).setLineStyle(SeriesLines.NONE);
    return series;
  }

  /** Text centred on a place, in units of the axes. */
  void text(String text, double x, double y) {
    chart.addAnnotation(new AnnotationText(text, x, y, false));
  }

  /** A picture of this chart alone, told by its axes. */
  Picture alone(int width, int height) {
    String over = words.say("draw.over", "y", chart.getYAxisTitle(), "x", chart.getXAxisTitle());
    return alone(chart.getTitle(), over, width, height);
  }

  /** A picture of this chart alone. */
  Picture alone(String title, String description, int width, int height) {
    return new Picture(title, description, height, List.of(new Picture.Panel(chart(), width)));
  }

  /** The chart, complete: an axis is drawn only if a series belongs to it. */
  XYChart chart() {
    if (withGramForce) {
      double x = chart.getStyler().getXAxisMin();
      double y = chart.getStyler().getYAxisMin(1);
      XYSeries unseen = chart.addSeries("gf", new double[] {x}, new double[] {y});
      unseen.setMarker(SeriesMarkers.NONE).setLineStyle(SeriesLines.NONE);
      unseen.setShowInLegend(false).setYAxisGroup(1);
    }
    return chart;
  }
}
