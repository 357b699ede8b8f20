package snick.report.plot;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.util.Locale;
import org.knowm.xchart.XYChart;
import org.knowm.xchart.XYChartBuilder;
import org.knowm.xchart.XYSeries;
import org.knowm.xchart.style.Styler;
import org.knowm.xchart.style.XYStyler;
import org.knowm.xchart.style.markers.Marker;
import org.knowm.xchart.style.markers.SeriesMarkers;

/**
 * How every chart looks: dark on white, thin lines, colours that the colour-blind tell apart (the
 * palette of Okabe and Ito, from memory) and never colour alone: markers and dashes differ too.
 */
final class Look {
  static final Color INK = new Color(0x22, 0x22, 0x22);
  static final Color BLUE = new Color(0x00, 0x72, 0xB2);
  static final Color VERMILION = new Color(0xD5, 0x5E, 0x00);
  static final Color GREEN = new Color(0x00, 0x9E, 0x73);
  static final Color PURPLE = new Color(0xCC, 0x79, 0xA7);
  static final Color SKY = new Color(0x56, 0xB4, 0xE9);

  private static final Color GRID = new Color(0xDD, 0xDD, 0xDD);
  private static final int WIDTH = 820;
  private static final int HEIGHT = 380;
  private static final float THIN = 1.2f;
  private static final int MARKER = 7;
  private static final Font SMALL = new Font(Font.SANS_SERIF, Font.PLAIN, 12);
  private static final Font HEAD = new Font(Font.SANS_SERIF, Font.BOLD, 13);

  /** Kinds of lines. */
  enum Line {
    SOLID,
    DASHED,
    DOTTED,
    DASH_DOTTED;

    private BasicStroke stroke(float width) {
      float[] dashes =
          switch (this) {
            case SOLID -> null;
            case DASHED -> new float[] {8, 5};
            case DOTTED -> new float[] {2, 4};
            case DASH_DOTTED -> new float[] {9, 4, 2, 4};
          };
      return new BasicStroke(width, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 1, dashes, 0);
    }
  }

  private Look() {}

  /** An empty chart; axis titles carry units. */
  static XYChart chart(String title, String x, String y) {
    XYChart chart =
        new XYChartBuilder()
            .width(WIDTH)
            .height(HEIGHT)
            .title(title)
            .xAxisTitle(x)
            .yAxisTitle(y)
            .build();
    XYStyler style = chart.getStyler();
    style.setChartBackgroundColor(Color.WHITE);
    style.setPlotBackgroundColor(Color.WHITE);
    style.setPlotBorderColor(INK);
    style.setPlotGridLinesColor(GRID);
    style.setPlotGridLinesStroke(Line.SOLID.stroke(1));
    style.setChartFontColor(INK);
    style.setChartTitleFont(HEAD);
    style.setAxisTitleFont(SMALL);
    style.setAxisTickLabelsFont(SMALL);
    style.setLegendFont(SMALL);
    style.setLegendBorderColor(Color.WHITE);
    style.setLegendPosition(Styler.LegendPosition.OutsideE);
    style.setLegendLayout(Styler.LegendLayout.Vertical);
    style.setMarkerSize(MARKER);
    style.setLocale(Locale.ROOT);
    style.setDecimalPattern("0.####");
    style.setAntiAlias(true);
    return chart;
  }

  /** A line without markers. */
  static XYSeries line(XYChart chart, String name, double[] x, double[] y, Color color, Line line) {
    XYSeries series = chart.addSeries(name, x, y);
    series.setMarker(SeriesMarkers.NONE);
    series.setLineColor(color);
    series.setLineStyle(line.stroke(THIN));
    return series;
  }

  /** Points without a line. */
  static XYSeries points(
      XYChart chart, String name, double[] x, double[] y, Color color, Marker marker) {
    XYSeries series = chart.addSeries(name, x, y);
    series.setXYSeriesRenderStyle(XYSeries.XYSeriesRenderStyle.Scatter);
    series.setMarker(marker);
    series.setMarkerColor(color);
    return series;
  }
}
