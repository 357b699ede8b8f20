package snick.report.plot;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import org.knowm.xchart.style.markers.Marker;
import org.knowm.xchart.style.markers.SeriesMarkers;
import snick.journal.Session;
import snick.journal.Stage;
import snick.quantity.Force;
import snick.quantity.MeasuredForce;
import snick.store.record.CutSummary;
import snick.verdict.comparison.GroupFigures;
import snick.verdict.statistic.Interval;
import snick.verdict.statistic.Readings;

/** Draws the cuts of one stage along the edge. */
public final class StagePlot {
  private static final int WIDTH = 900;
  private static final int HEIGHT = 340;
  private static final double ROOM = 0.12;
  private static final double BELOW = 0.03;

  private final String title;
  private final List<Dot> dots;
  private final boolean placed;

  /** One cut with a force. */
  private record Dot(double x, double newtons, double half, boolean counts, boolean uneven) {}

  private StagePlot(String title, List<CutSummary> cuts) {
    this.title = title;
    placed = cuts.stream().allMatch(c -> c.place().flatMap(StagePlot::place).isPresent());
    dots = new ArrayList<>();
    for (CutSummary cut : cuts) {
      StageForces.of(cut).ifPresent(force -> dots.add(dot(cut, force, dots.size() + 1)));
    }
  }

  /**
   * The picture of one stage.
   *
   * @param session the session that it belongs to
   * @param cuts its cuts in the order made, those set aside too
   * @throws NothingToDraw if none of them has a force
   */
  public static Picture of(Session session, Stage stage, List<CutSummary> cuts) {
    StagePlot plot = new StagePlot("Stage: " + Shown.shortened(stage.name()), cuts);
    if (plot.dots.isEmpty()) {
      throw new NothingToDraw(
          "stage '"
              + stage.name()
              + "' has no cut with a cut-through force: cut, with a calibration");
    }
    return plot.picture(stage)
        .under(Shown.origin(session, (int) plot.dots.stream().filter(Dot::counts).count()));
  }

  private static Optional<Double> place(snick.store.record.CutPlace place) {
    return place.placeMm().isPresent()
        ? Optional.of(place.placeMm().getAsDouble())
        : Optional.empty();
  }

  private Dot dot(CutSummary cut, MeasuredForce force, int order) {
    double x = placed ? cut.place().flatMap(StagePlot::place).orElseThrow() : order;
    return new Dot(
        x,
        force.value().newtons(),
        Shown.expandedNewtons(force),
        cut.setAside().isEmpty(),
        StageForces.uneven(cut));
  }

  private Picture picture(Stage stage) {
    double high = dots.stream().mapToDouble(d -> d.newtons() + d.half()).max().orElseThrow();
    double left = dots.stream().mapToDouble(Dot::x).min().orElseThrow();
    double right = dots.stream().mapToDouble(Dot::x).max().orElseThrow();
    double margin = placed ? Math.max(1, ROOM * (right - left)) : 1;
    ForceChart chart =
        new ForceChart(title, placed ? "Place from the heel (mm)" : "cut of the stage, in order")
            .newtons(-BELOW * high, high * (1 + ROOM))
            .fromZero()
            .fromTo(left - margin, right + margin);
    if (!placed) {
      chart.wholeNumbers();
    }
    Optional<GroupFigures> figures = figures();
    figures.ifPresent(f -> mean(chart, f));
    add(chart, "cut", SeriesMarkers.CIRCLE, Look.BLUE, d -> d.counts() && !d.uneven());
    add(chart, "cut, dipped", SeriesMarkers.DIAMOND, Look.VERMILION, d -> d.counts() && d.uneven());
    add(chart, "set aside", SeriesMarkers.CROSS, Pen.GREY, d -> !d.counts());
    return new Picture(
        title,
        description(stage, figures),
        HEIGHT,
        List.of(new Picture.Panel(chart.chart(), WIDTH)));
  }

  private void add(
      ForceChart chart, String name, Marker marker, java.awt.Color colour, Predicate<Dot> chosen) {
    List<Dot> some = dots.stream().filter(chosen).toList();
    if (!some.isEmpty()) {
      chart.points(
          name,
          colour,
          marker,
          some.stream().mapToDouble(Dot::x).toArray(),
          some.stream().mapToDouble(Dot::newtons).toArray(),
          some.stream().mapToDouble(Dot::half).toArray());
    }
  }

  private static void mean(ForceChart chart, GroupFigures figures) {
    double perGramForce = Force.NEWTONS_PER_GRAM_FORCE;
    chart.level("mean", Look.INK, Pen.MEDIUM, figures.meanGf() * perGramForce);
    figures
        .ci95Gf()
        .ifPresent(
            i -> {
              chart.level(
                  "95 % interval of the mean", Look.INK, Pen.DASHED, i.low() * perGramForce);
              chart
                  .level("upper end", Look.INK, Pen.DASHED, i.high() * perGramForce)
                  .setShowInLegend(false);
            });
  }

  private Optional<GroupFigures> figures() {
    double[] gramForce =
        dots.stream()
            .filter(Dot::counts)
            .mapToDouble(d -> Force.ofNewtons(d.newtons()).gramForce())
            .toArray();
    return gramForce.length == 0
        ? Optional.empty()
        : Optional.of(GroupFigures.of(Readings.ofGramForce("stage", gramForce), Optional.empty()));
  }

  private String description(Stage stage, Optional<GroupFigures> figures) {
    long aside = dots.stream().filter(d -> !d.counts()).count();
    return "Force in N and gf of "
        + dots.size()
        + " cuts of stage '"
        + stage.name()
        + (placed ? "' over the place from the heel in mm" : "' in the order made")
        + ", bars are the expanded uncertainty, k = 2. "
        + figures.map(StagePlot::told).orElse("None of them counts.")
        + (aside == 0 ? "" : " " + aside + " set aside.");
  }

  private static String told(GroupFigures f) {
    return "Mean "
        + Shown.newtons(f.meanGf())
        + " = "
        + Shown.gf(f.meanGf())
        + f.ci95Gf().map((Interval i) -> ", 95 % interval " + Shown.range(i)).orElse("")
        + ".";
  }
}
