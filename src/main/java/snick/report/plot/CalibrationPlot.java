package snick.report.plot;

import java.awt.Color;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.knowm.xchart.style.markers.Marker;
import org.knowm.xchart.style.markers.SeriesMarkers;
import snick.force.budget.Calibration;
import snick.force.budget.CombinedUncertainty;
import snick.force.reading.Deflection;
import snick.force.reading.Direction;
import snick.phrase.Phrase;
import snick.phrase.Words;
import snick.quantity.Force;

/** Draws a calibration: the curve, and how far points and uncertainty lie from it. */
public final class CalibrationPlot {
  private static final int HEIGHT = 430;
  private static final int CURVE_WIDTH = 430;
  private static final int DIFFERENCES_WIDTH = 490;
  private static final int BESIDE_WIDTH = 820;
  private static final int STEPS_OF_CURVE = 60;
  private static final int STEPS_OF_BAND = 10;
  private static final double CLOSER_AT_FIRST = 1.2;
  private static final double ROOM = 1.1;

  private final Calibration calibration;
  private final List<Deflection> points;
  private final Words words;
  private final double to;

  private CalibrationPlot(Calibration calibration, List<Deflection> points, Words words) {
    this.words = words;
    this.calibration = calibration;
    this.points = points;
    to = calibration.range().to().newtons();
  }

  /**
   * The picture of a calibration.
   *
   * @param points what was read for it; empty if it was typed in
   * @param words the language
   */
  public static Picture of(Calibration calibration, List<Deflection> points, Words words) {
    CalibrationPlot plot = new CalibrationPlot(calibration, List.copyOf(points), words);
    return new Picture(
        words.say("draw.calibration", "id", calibration.id()),
        plot.description(),
        HEIGHT,
        List.of(
            new Picture.Panel(plot.curve().chart(), CURVE_WIDTH),
            new Picture.Panel(plot.differences().chart(), DIFFERENCES_WIDTH)));
  }

  /** What lies beside the curve, alone. */
  public static Picture beside(Calibration calibration, List<Deflection> points, Words words) {
    return new CalibrationPlot(calibration, List.copyOf(points), words)
        .differences()
        .alone(BESIDE_WIDTH, HEIGHT);
  }

  /** Forces over the range, closer together at its beginning: even steps would become ticks. */
  private double[] forces(int steps) {
    double from = calibration.range().from().newtons();
    return IntStream.rangeClosed(0, steps)
        .mapToDouble(i -> from + (to - from) * Math.pow((double) i / steps, CLOSER_AT_FIRST))
        .toArray();
  }

  private ForceChart curve() {
    double[] x = forces(STEPS_OF_CURVE);
    double[] y = Arrays.stream(x).map(f -> calibration.curve().deflectionCounts(f)).toArray();
    double high =
        Math.max(
            y[STEPS_OF_CURVE], points.stream().mapToDouble(Deflection::counts).max().orElse(0));
    ForceChart chart =
        new ForceChart(words, words.say("draw.curve"), words.say("draw.force", "unit", "N"))
            .quantity(words.say("draw.deflection"), Math.min(0, y[0]), ROOM * high)
            .fromTo(0, ROOM * to);
    chart.line(
        words.say("draw.curve_of", "n", calibration.curve().degree()), Look.INK, Pen.MEDIUM, x, y);
    points(chart, Direction.UP, Deflection::counts);
    points(chart, Direction.DOWN, Deflection::counts);
    return chart;
  }

  private interface Height {
    double of(Deflection point);
  }

  private void points(ForceChart chart, Direction direction, Height height) {
    List<Deflection> some = points.stream().filter(p -> p.direction() == direction).toList();
    if (some.isEmpty()) {
      return;
    }
    boolean up = direction == Direction.UP;
    Marker marker = up ? SeriesMarkers.TRIANGLE_UP : SeriesMarkers.TRIANGLE_DOWN;
    Color colour = up ? Look.BLUE : Look.VERMILION;
    chart.points(
        words.say(up ? "draw.rising" : "draw.falling"),
        colour,
        marker,
        some.stream().mapToDouble(Deflection::newtons).toArray(),
        some.stream().mapToDouble(height::of).toArray());
  }

  private double awayNewtons(Deflection point) {
    return calibration.newtons(point.counts()) - point.newtons();
  }

  private double expandedNewtons(double newtons) {
    CombinedUncertainty at =
        new CombinedUncertainty(newtons, calibration.contributions(newtons, 0));
    return at.standardNewtons() > 0 ? at.expandedNewtons() : 0;
  }

  private ForceChart differences() {
    double[] x = forces(STEPS_OF_BAND);
    double[] expanded = Arrays.stream(x).map(this::expandedNewtons).toArray();
    double most =
        Math.max(
            Arrays.stream(expanded).max().orElse(0),
            points.stream().mapToDouble(p -> Math.abs(awayNewtons(p))).max().orElse(0));
    ForceChart chart =
        new ForceChart(words, words.say("draw.away"), words.say("draw.force", "unit", "N"))
            .differences(most > 0 ? ROOM * most : to / 1e4)
            .fromTo(0, ROOM * to);
    double[] above = Arrays.stream(expanded).map(u -> u * 1e3).toArray();
    double[] below = Arrays.stream(above).map(u -> -u).toArray();
    chart.line(words.say("draw.expanded"), Look.INK, Pen.DASHED, x, above);
    chart.line("below", Look.INK, Pen.DASHED, x, below).setShowInLegend(false);
    points(chart, Direction.UP, p -> awayNewtons(p) * 1e3);
    points(chart, Direction.DOWN, p -> awayNewtons(p) * 1e3);
    return chart;
  }

  private String description() {
    double expanded = expandedNewtons(to);
    return words.say(
        Phrase.of("draw.calibration_told")
            .with("to", Shown.fixed(to, 3) + " N = " + Shown.gf(Force.ofNewtons(to).gramForce()))
            .with("degree", calibration.curve().degree())
            .with("n", points.size())
            .with(
                "u",
                Shown.fixed(expanded * 1e3, 2)
                    + " mN = "
                    + Shown.gf(Force.ofNewtons(expanded).gramForce())));
  }
}
