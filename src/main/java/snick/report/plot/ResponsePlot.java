package snick.report.plot;

import java.util.Locale;
import java.util.stream.IntStream;
import snick.cut.response.Response;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;
import snick.phrase.Words;

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
  private final Words words;

  private ResponsePlot(Response response, Words words) {
    this.response = response;
    this.words = words;
  }

  /**
   * The picture of a response whose shape is known.
   *
   * @param rig its name, for the title
   * @param words the language
   * @throws NotAccepted if no shape is known
   */
  public static Picture of(Response response, String rig, double samplesPerSecond, Words words) {
    if (response.shape().isEmpty()) {
      throw new NotAccepted("refused.too_few_falls", "rig", rig);
    }
    ResponsePlot plot = new ResponsePlot(response, words);
    return plot.chart()
        .alone(
            words.say("draw.response", "rig", rig),
            plot.description(samplesPerSecond),
            WIDTH,
            HEIGHT);
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
    double[] seconds = IntStream.range(0, POINTS).mapToDouble(i -> from + i * step).toArray();
    double[] milliseconds = of(seconds, s -> 1e3 * s);
    double[] shape = of(seconds, s -> 100 * response.shapeAt(s));
    double low = IntStream.range(0, shape.length).mapToDouble(i -> shape[i]).min().orElseThrow();
    double high = IntStream.range(0, shape.length).mapToDouble(i -> shape[i]).max().orElseThrow();
    double room = ROOM * (high - low);
    ForceChart chart =
        new ForceChart(
                words,
                words.say("draw.response_title"),
                words.say("draw.axis", "what", Phrase.of("draw.from_break"), "unit", "ms"))
            .quantity(words.say("draw.still_to_fall"), low - room, high + room)
            .fromTo(milliseconds[0], milliseconds[POINTS - 1]);
    chart.level("zero", Pen.GREY, Pen.DOTTED, 0).setShowInLegend(false);
    chart.line(words.say("draw.one_more_fall"), Pen.GREY, Pen.THIN, milliseconds, band(seconds, 1));
    chart.line("below", Pen.GREY, Pen.THIN, milliseconds, band(seconds, -1)).setShowInLegend(false);
    chart.line(
        words.say("draw.learned", "n", response.falls()),
        Look.BLUE,
        Pen.MEDIUM,
        milliseconds,
        shape);
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
    Phrase ring =
        response
            .ring()
            .map(
                r ->
                    Phrase.of("draw.ring")
                        .with("hertz", format("%.3g", r.hertz()))
                        .with("u", format("%.1g", r.hertzUncertainty()))
                        .with("damping", format("%.2g", r.dampingRatio()))
                        .with("decay", format("%.0f", 1e3 * r.decaySeconds())))
            .orElse(Phrase.of(response.swingsUnseen() ? "draw.unseen_ring" : "draw.no_ring"));
    return words.say("draw.response_told", "rate", format("%.0f", samplesPerSecond), "ring", ring);
  }

  private static String format(String form, double value) {
    return String.format(Locale.ROOT, form, value);
  }
}
