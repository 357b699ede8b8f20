package snick.report.plot;

import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import snick.cut.response.Response;

/** Draws how a rig answers a sudden fall of force. */
public final class ResponsePlot {
  private static final int HEIGHT = 430;
  private static final int WIDTH = 920;
  private static final int POINTS = 600;
  private static final double COVERAGE_FACTOR = 2;
  private static final double LONGEST_SECONDS = 0.6;
  private static final double DECAYS_SHOWN = 5;
  private static final double ROOM = 0.1;

  private final Response response;

  private ResponsePlot(Response response) {
    this.response = response;
  }

  /**
   * The picture of a response whose shape is known.
   *
   * @param rig its name, for the title
   * @throws NothingToDraw if no shape is known
   */
  public static Picture of(Response response, String rig, double samplesPerSecond) {
    if (response.shape().isEmpty()) {
      throw new NothingToDraw(
          "too few clear falls of rig " + rig + " are stored to know its response; cut some more");
    }
    ResponsePlot plot = new ResponsePlot(response);
    return new Picture(
        "Response of rig " + rig,
        plot.description(samplesPerSecond),
        HEIGHT,
        List.of(new Picture.Panel(plot.chart().chart(), WIDTH)));
  }

  private double fromSeconds() {
    return response.shape().orElseThrow().firstSeconds();
  }

  private double toSeconds() {
    double shape = response.shape().orElseThrow().lastSeconds();
    return response
        .ring()
        .map(r -> Math.min(LONGEST_SECONDS, DECAYS_SHOWN * r.decaySeconds()))
        .map(ring -> Math.max(shape, ring))
        .orElse(shape);
  }

  private ForceChart chart() {
    double from = fromSeconds();
    double step = (toSeconds() - from) / POINTS;
    double[] seconds = IntStream.rangeClosed(0, POINTS).mapToDouble(i -> from + i * step).toArray();
    double[] milliseconds = of(seconds, s -> 1e3 * s);
    double[] shape = of(seconds, s -> 100 * response.shapeAt(s));
    double low = IntStream.range(0, shape.length).mapToDouble(i -> shape[i]).min().orElseThrow();
    double high = IntStream.range(0, shape.length).mapToDouble(i -> shape[i]).max().orElseThrow();
    double room = ROOM * (high - low);
    ForceChart chart =
        new ForceChart("How the readings follow a sudden fall", "Time since the break (ms)")
            .quantity("still to fall / %", low - room, high + room)
            .fromTo(milliseconds[0], milliseconds[POINTS]);
    chart.level("zero", Pen.GREY, Pen.DOTTED, 0).setShowInLegend(false);
    chart.line("one more fall lies within", Pen.GREY, Pen.DASHED, milliseconds, band(seconds, 1));
    chart
        .line("below", Pen.GREY, Pen.DASHED, milliseconds, band(seconds, -1))
        .setShowInLegend(false);
    chart.line(
        "learned from " + response.falls() + " falls", Look.BLUE, Pen.MEDIUM, milliseconds, shape);
    return chart;
  }

  private interface OfSeconds {
    double at(double seconds);
  }

  private static double[] of(double[] seconds, OfSeconds value) {
    return IntStream.range(0, seconds.length).mapToDouble(i -> value.at(seconds[i])).toArray();
  }

  private double[] band(double[] seconds, int side) {
    return of(
        seconds,
        s -> 100 * (response.shapeAt(s) + side * COVERAGE_FACTOR * response.shapeUncertaintyAt(s)));
  }

  private String description(double samplesPerSecond) {
    String ring =
        response
            .ring()
            .map(
                r ->
                    String.format(
                        Locale.ROOT,
                        "rings at %.3g Hz (u = %.1g Hz), damping ratio %.2g, and falls to 1/e within"
                            + " %.0f ms.",
                        r.hertz(),
                        r.hertzUncertainty(),
                        r.dampingRatio(),
                        1e3 * r.decaySeconds()))
            .orElse("no ring shows at this rate.");
    return String.format(
            Locale.ROOT,
            "Share of a sudden fall of force that is still to come, over the time since the break"
                + " (equal areas), at %.0f samples/s; dashed: expanded uncertainty (k = 2) for one"
                + " more fall, noise aside. The rig ",
            samplesPerSecond)
        + ring;
  }
}
