package snick.report;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.knowm.xchart.BitmapEncoder;
import org.knowm.xchart.VectorGraphicsEncoder;
import org.knowm.xchart.internal.chartpart.Chart;

/** A drawn chart, as SVG or PNG. */
public final class Picture {
  private static final int DOTS_PER_INCH = 150;

  private final Chart<?, ?> chart;

  Picture(Chart<?, ?> chart) {
    this.chart = chart;
  }

  /**
   * As an SVG element to stand inside a page.
   *
   * @param label what it shows, for people who do not see it; without markup
   */
  public String svg(String label) {
    String document = new String(svgDocument(), StandardCharsets.UTF_8);
    String element = document.substring(document.indexOf("<svg") + "<svg".length());
    return "<svg role=\"img\" aria-label=\"" + label.replace("\"", "&quot;") + "\"" + element;
  }

  private byte[] svgDocument() {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try {
      VectorGraphicsEncoder.saveVectorGraphic(
          chart, bytes, VectorGraphicsEncoder.VectorGraphicsFormat.SVG);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return bytes.toByteArray();
  }

  /**
   * Writes it; the ending of the name says how.
   *
   * @throws IllegalArgumentException if the name ends in neither .svg nor .png
   */
  public void write(Path file) throws IOException {
    String name = file.toString().toLowerCase(Locale.ROOT);
    if (name.endsWith(".svg")) {
      Files.write(file, svgDocument());
    } else if (name.endsWith(".png")) {
      BitmapEncoder.saveBitmapWithDPI(
          chart, file.toString(), BitmapEncoder.BitmapFormat.PNG, DOTS_PER_INCH);
    } else {
      throw new IllegalArgumentException(file + " ends in neither .svg nor .png");
    }
  }
}
