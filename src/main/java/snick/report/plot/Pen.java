package snick.report.plot;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Ellipse2D;
import org.knowm.xchart.style.markers.Marker;

/** Lines and marks that differ in form, so that colour is never the only difference. */
final class Pen {
  /** Lines that stay behind. */
  static final Color GREY = new Color(95, 95, 95);

  static final Color LIGHT_GREY = new Color(215, 215, 215);

  static final BasicStroke THIN = new BasicStroke(0.8f);
  static final BasicStroke MEDIUM = new BasicStroke(1.6f);

  /** For lines of few points: the library begins the dashes anew at each. */
  static final BasicStroke DASHED = broken(2, 9, 5);

  static final BasicStroke DOTTED = broken(2.4f, 2.4f, 4);
  static final BasicStroke DASH_DOTTED = broken(1.6f, 9, 4, 2, 4);

  /** An empty circle. */
  static final Marker RING = new Ring(1);

  /** An empty circle that goes round another mark. */
  static final Marker HALO = new Ring(2);

  private Pen() {}

  private static BasicStroke broken(float width, float... dashes) {
    return new BasicStroke(width, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 1, dashes, 0);
  }

  private static final class Ring extends Marker {
    private final double times;

    Ring(double times) {
      this.times = times;
    }

    @Override
    public void paint(Graphics2D graphics, double x, double y, int size) {
      double across = times * size;
      graphics.setStroke(MEDIUM);
      graphics.draw(new Ellipse2D.Double(x - across / 2, y - across / 2, across, across));
    }
  }
}
