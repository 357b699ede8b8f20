package snick.report.plot;

import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.font.FontRenderContext;
import java.awt.font.TextLayout;
import java.awt.geom.AffineTransform;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import org.knowm.xchart.XYChart;
import org.knowm.xchart.XYSeries;
import org.knowm.xchart.style.Styler;
import org.knowm.xchart.style.lines.SeriesLines;

/**
 * Names of a chart's series, each after its line and mark: under the chart in as many rows as they
 * need, or beside it one under another. The library's own measures letters otherwise than it draws
 * them, so that a long name runs into the next mark or out of the picture, and sets names with and
 * without tall letters on lines of their own.
 */
final class Legend {
  private static final int LINE = 26;
  private static final int AFTER_LINE = 8;
  private static final int BETWEEN = 26;
  private static final int ROW = 22;
  private static final int BASE = 15;
  private static final int ABOVE = 6;
  private static final int EDGE = 12;
  private static final double MIDDLE_OF_LETTERS = 5;
  private static final double MOST_BESIDE = 0.4;

  /** Letters as shapes, of the same size at any scale. */
  private static final FontRenderContext AS_DRAWN = new FontRenderContext(null, true, true);

  private final boolean beside;
  private final List<List<Name>> rows = new ArrayList<>();

  /** A series' name and where it stands, from the left end of its row. */
  private record Name(XYSeries series, TextLayout letters, double left) {
    double right() {
      return left + LINE + AFTER_LINE + letters.getAdvance();
    }
  }

  /** The names of {@code chart} in a picture, or a part of one, {@code width} wide. */
  Legend(XYChart chart, int width) {
    beside = chart.getStyler().getLegendPosition() == Styler.LegendPosition.OutsideE;
    double most = (beside ? MOST_BESIDE * width : width) - 2.0 * EDGE;
    chart.getSeriesMap().values().stream()
        .filter(XYSeries::isShowInLegend)
        .forEach(series -> add(series, chart.getStyler().getLegendFont(), most));
  }

  private void add(XYSeries series, Font font, double most) {
    TextLayout letters = fitting(series.getLabel(), font, most - LINE - AFTER_LINE);
    double after = rows.isEmpty() ? 0 : last().get(last().size() - 1).right() + BETWEEN;
    Name next = new Name(series, letters, after);
    if (rows.isEmpty() || beside || next.right() > most) {
      rows.add(new ArrayList<>());
      next = new Name(series, letters, 0);
    }
    last().add(next);
  }

  private List<Name> last() {
    return rows.get(rows.size() - 1);
  }

  private static TextLayout fitting(String name, Font font, double most) {
    int letters = name.length();
    TextLayout layout = new TextLayout(name, font, AS_DRAWN);
    while (layout.getAdvance() > most && letters > 1) {
      layout = new TextLayout(Shown.shortened(name, --letters), font, AS_DRAWN);
    }
    return layout;
  }

  /** How much of the picture's height it takes. */
  int height() {
    return beside || rows.isEmpty() ? 0 : ABOVE + ROW * rows.size();
  }

  /** How much of the picture's width it takes. */
  int width() {
    return beside ? (int) Math.ceil(widest()) + 2 * EDGE : 0;
  }

  private double widest() {
    return rows.stream().mapToDouble(Legend::width).max().orElse(0);
  }

  private static double width(List<Name> row) {
    return row.get(row.size() - 1).right();
  }

  /** Where the names stand in a picture of this size whose charts end at {@code chartHeight}. */
  List<Rectangle2D> places(int width, int chartHeight) {
    List<Rectangle2D> places = new ArrayList<>();
    for (int row = 0; row < rows.size(); row++) {
      double left = left(rows.get(row), width);
      double top = top(chartHeight) + ROW * row;
      for (Name name : rows.get(row)) {
        places.add(
            new Rectangle2D.Double(left + name.left(), top, name.right() - name.left(), ROW));
      }
    }
    return places;
  }

  private double left(List<Name> row, int width) {
    return beside ? width - EDGE - widest() : (width - width(row)) / 2;
  }

  private double top(int chartHeight) {
    return beside ? (chartHeight - ROW * rows.size()) / 2.0 : chartHeight;
  }

  void paint(Graphics2D graphics, int width, int chartHeight) {
    List<Rectangle2D> places = places(width, chartHeight);
    List<Name> names = rows.stream().flatMap(List::stream).toList();
    for (int i = 0; i < names.size(); i++) {
      paint(graphics, names.get(i), places.get(i));
    }
  }

  private static void paint(Graphics2D graphics, Name name, Rectangle2D place) {
    XYSeries series = name.series();
    double x = place.getX();
    double base = place.getY() + BASE;
    double middle = base - MIDDLE_OF_LETTERS;
    if (!series.getLineStyle().equals(SeriesLines.NONE)) {
      graphics.setColor(series.getLineColor());
      graphics.setStroke(series.getLineStyle());
      graphics.draw(new Line2D.Double(x, middle, x + LINE, middle));
    }
    graphics.setColor(series.getMarkerColor());
    series.getMarker().paint(graphics, x + LINE / 2.0, middle, ForceChart.MARK);
    graphics.setColor(Look.INK);
    graphics.fill(
        name.letters()
            .getOutline(AffineTransform.getTranslateInstance(x + LINE + AFTER_LINE, base)));
  }
}
