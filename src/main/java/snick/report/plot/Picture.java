package snick.report.plot;

import static java.nio.charset.StandardCharsets.UTF_8;

import de.erichseifert.vectorgraphics2d.VectorGraphics2D;
import de.erichseifert.vectorgraphics2d.svg.SVGProcessor;
import de.erichseifert.vectorgraphics2d.util.PageSize;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import javax.imageio.stream.ImageOutputStream;
import javax.imageio.stream.MemoryCacheImageOutputStream;
import org.knowm.xchart.XYChart;
import org.knowm.xchart.XYSeries;

/**
 * Charts side by side, to be written as SVG or PNG; the same charts give the same bytes on one
 * machine. Letters are drawn as shapes, so that they look the same without the font; what they say
 * is in the title and the description.
 */
public final class Picture {
  private static final int PNG_PIXELS_PER_UNIT = 2;
  private static final int LINE_HEIGHT = 18;
  private static final int FOOT_ROOM = 6;
  private static final int FOOT_LEFT = 12;
  private static final int MOST_LINES = 3;

  /** Enough for the widest usual fonts at 16; measured on pictures that stuck out. */
  private static final int LETTER_WIDTH = 10;

  /** The size of all letters; at 12 the library leaves it out of an SVG, and browsers take 16. */
  private static final Font FOOT = new Font(Font.SANS_SERIF, Font.PLAIN, 14);

  private static final Pattern LONG_NUMBER = Pattern.compile("-?\\d+\\.\\d{3,}(?:[Ee]-?\\d+)?");

  private static final Pattern FAMILY = Pattern.compile("font-family:(&quot;[^;]+&quot;);");
  private static final Pattern OPENING = Pattern.compile("^.*?<svg[^>]*>", Pattern.DOTALL);
  private static final Pattern ID = Pattern.compile("(id=\"|url\\(#)");

  private final String title;
  private final String description;
  private final int height;
  private final List<Panel> panels;
  private final List<String> foot;

  /** One chart and its width, in units of 1/96 inch at natural size. */
  record Panel(XYChart chart, int width) {
    Legend legend() {
      return new Legend(chart, width);
    }

    private void paint(Graphics2D graphics, int chartHeight) {
      Legend legend = legend();
      chart.paint(graphics, width - legend.width(), chartHeight);
      legend.paint(graphics, width, chartHeight);
    }
  }

  Picture(String title, String description, int height, List<Panel> panels) {
    this(title, description, height, panels, List.of());
  }

  private Picture(
      String title, String description, int height, List<Panel> panels, List<String> foot) {
    this.title = title;
    this.description = description;
    this.height = height;
    this.panels = List.copyOf(panels);
    this.foot = List.copyOf(foot);
  }

  /**
   * The same with lines under it, broken where they would stick out: where its figures are from, so
   * that it can travel alone.
   */
  Picture under(String... lines) {
    int letters = width() / LETTER_WIDTH;
    return new Picture(
        title,
        description,
        height,
        panels,
        Stream.of(lines).flatMap(line -> Shown.lines(line, letters, MOST_LINES).stream()).toList());
  }

  /** What it shows, in a few words. */
  public String title() {
    return title;
  }

  /** What it shows to somebody who cannot see it: axes with units, and the figures in it. */
  public String description() {
    return description;
  }

  /** Every text in it, as it stands before it is drawn. */
  List<String> texts() {
    List<String> texts = new ArrayList<>(List.of(title, description));
    texts.addAll(foot);
    for (Panel panel : panels) {
      XYChart chart = panel.chart();
      texts.addAll(List.of(chart.getTitle(), chart.getXAxisTitle(), chart.getYAxisGroupTitle(0)));
      chart.getSeriesMap().values().stream()
          .filter(XYSeries::isShowInLegend)
          .map(XYSeries::getLabel)
          .forEach(texts::add);
    }
    return texts;
  }

  int wholeHeight() {
    return height + LINE_HEIGHT * foot.size() + (foot.isEmpty() ? 0 : FOOT_ROOM);
  }

  int width() {
    return panels.stream().mapToInt(Panel::width).sum();
  }

  /** As SVG document. */
  public byte[] svg() {
    return ("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" + element("p")).getBytes(UTF_8);
  }

  /**
   * As SVG element to stand in an HTML document.
   *
   * @param prefix of the ids in it, a letter first; another for each picture of the document
   */
  public String element(String prefix) {
    String drawn = OPENING.matcher(drawn()).replaceFirst("");
    String titleId = prefix + "-title";
    String descriptionId = prefix + "-description";
    return String.format(
            Locale.ROOT,
            "<svg xmlns=\"http://www.w3.org/2000/svg\""
                + " xmlns:xlink=\"http://www.w3.org/1999/xlink\" viewBox=\"0 0 %d %d\""
                + " width=\"%d\" height=\"%d\" role=\"img\" aria-labelledby=\"%s %s\">",
            width(),
            wholeHeight(),
            width(),
            wholeHeight(),
            titleId,
            descriptionId)
        + "<title id=\""
        + titleId
        + "\">"
        + Markup.escaped(title)
        + "</title><desc id=\""
        + descriptionId
        + "\">"
        + Markup.escaped(description)
        + "</desc>"
        + ID.matcher(drawn).replaceAll("$1" + prefix + "-");
  }

  private String drawn() {
    VectorGraphics2D graphics = new VectorGraphics2D();
    paint(graphics);
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try {
      new SVGProcessor()
          .getDocument(graphics.getCommands(), new PageSize(0, 0, width(), wholeHeight()))
          .writeTo(bytes);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    String plain = FAMILY.matcher(bytes.toString(UTF_8)).replaceAll("font-family:$1,sans-serif;");
    return LONG_NUMBER.matcher(plain).replaceAll(m -> shortened(Double.parseDouble(m.group())));
  }

  private static String shortened(double value) {
    String text = String.format(Locale.ROOT, "%.2f", value);
    return text.equals("-0.00") ? "0" : text;
  }

  /** As PNG, 192 pixels an inch at natural size. */
  public byte[] png() {
    BufferedImage image =
        new BufferedImage(
            width() * PNG_PIXELS_PER_UNIT,
            wholeHeight() * PNG_PIXELS_PER_UNIT,
            BufferedImage.TYPE_INT_RGB);
    Graphics2D graphics = image.createGraphics();
    graphics.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
    graphics.scale(PNG_PIXELS_PER_UNIT, PNG_PIXELS_PER_UNIT);
    paint(graphics);
    graphics.dispose();
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (ImageOutputStream out = new MemoryCacheImageOutputStream(bytes)) {
      ImageIO.write(image, "png", out);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return bytes.toByteArray();
  }

  /** Each of its charts alone, over names of its own. */
  List<Picture> parts() {
    return panels.stream()
        .map(panel -> new Picture(title, description, height, List.of(panel)))
        .toList();
  }

  void paint(Graphics2D graphics) {
    graphics.setColor(Color.WHITE);
    graphics.fillRect(0, 0, width(), wholeHeight());
    int under = panels.stream().mapToInt(panel -> panel.legend().height()).max().orElse(0);
    int x = 0;
    for (Panel panel : panels) {
      graphics.translate(x, 0);
      panel.paint(graphics, height - under);
      graphics.translate(-x, 0);
      x += panel.width();
    }
    graphics.setColor(Look.INK);
    graphics.setFont(FOOT);
    for (int i = 0; i < foot.size(); i++) {
      graphics.drawString(foot.get(i), FOOT_LEFT, height + LINE_HEIGHT * (i + 1) - FOOT_ROOM / 2);
    }
  }
}
