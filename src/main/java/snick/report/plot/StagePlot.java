package snick.report.plot;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import org.knowm.xchart.style.markers.Marker;
import org.knowm.xchart.style.markers.SeriesMarkers;
import snick.journal.Session;
import snick.journal.Stage;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;
import snick.phrase.Words;
import snick.quantity.Force;
import snick.quantity.MeasuredForce;
import snick.store.record.CutSummary;
import snick.verdict.comparison.GroupFigures;
import snick.verdict.statistic.Readings;

/** Draws the cuts of one stage along the edge. */
public final class StagePlot {
  private static final int WIDTH = 900;
  private static final int HEIGHT = 340;
  private static final double ROOM = 0.12;
  private static final double BELOW = 0.03;

  private final Words words;
  private final String title;
  private final List<Dot> dots;
  private final boolean placed;

  /** One cut with a force. */
  private record Dot(double x, double newtons, double half, boolean counts, boolean uneven) {}

  private StagePlot(Words words, Stage stage, List<CutSummary> cuts) {
    this.words = words;
    this.title = words.say("draw.stage", "stage", Shown.shortened(stage.name()));
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
   * @param words the language
   * @throws NotAccepted if none of them has a force
   */
  public static Picture of(Session session, Stage stage, List<CutSummary> cuts, Words words) {
    StagePlot plot = new StagePlot(words, stage, cuts);
    if (plot.dots.isEmpty()) {
      throw new NotAccepted("refused.stage_without_force", "stage", stage.name());
    }
    return plot.picture(stage)
        .under(
            words.say(Shown.origin(session, (int) plot.dots.stream().filter(Dot::counts).count())));
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
        new ForceChart(words, title, words.say(placed ? "draw.place_axis" : "draw.order_axis"))
            .newtons(-BELOW * high, high * (1 + ROOM))
            .fromZero()
            .fromTo(left - margin, right + margin);
    if (!placed) {
      chart.wholeNumbers();
    }
    Optional<GroupFigures> figures = figures();
    figures.ifPresent(f -> mean(chart, f));
    add(chart, "draw.cut", SeriesMarkers.CIRCLE, Look.BLUE, d -> d.counts() && !d.uneven());
    add(
        chart,
        "draw.cut_dipped",
        SeriesMarkers.DIAMOND,
        Look.VERMILION,
        d -> d.counts() && d.uneven());
    add(chart, "report.aside", SeriesMarkers.CROSS, Pen.GREY, d -> !d.counts());
    return chart.alone(title, description(stage, figures), WIDTH, HEIGHT);
  }

  private void add(
      ForceChart chart, String key, Marker marker, java.awt.Color colour, Predicate<Dot> chosen) {
    List<Dot> some = dots.stream().filter(chosen).toList();
    if (!some.isEmpty()) {
      chart.points(
          words.say(key),
          colour,
          marker,
          some.stream().mapToDouble(Dot::x).toArray(),
          some.stream().mapToDouble(Dot::newtons).toArray(),
          some.stream().mapToDouble(Dot::half).toArray());
    }
  }

  private void mean(ForceChart chart, GroupFigures figures) {
    double perGramForce = Force.NEWTONS_PER_GRAM_FORCE;
    chart.level(words.say("draw.mean"), Look.INK, Pen.MEDIUM, figures.meanGf() * perGramForce);
    figures
        .ci95Gf()
        .ifPresent(
            i -> {
              chart.level(words.say("draw.interval"), Look.INK, Pen.DASHED, i.low() * perGramForce);
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
    int aside = (int) dots.stream().filter(d -> !d.counts()).count();
    return words.say(
        Phrase.of(placed ? "draw.stage_along" : "draw.stage_in_order")
            .with("n", dots.size())
            .with("stage", stage.name())
            .with("mean", figures.map(StagePlot::told).orElse(Phrase.of("draw.none_counts")))
            .with("aside", aside == 0 ? "" : Phrase.of("draw.aside", "n", aside)));
  }

  /** Mean and interval of a stage. */
  static Phrase told(GroupFigures f) {
    String mean = Shown.newtons(f.meanGf()) + " = " + Shown.gf(f.meanGf());
    return f.ci95Gf()
        .map(i -> Phrase.of("draw.mean_between", "mean", mean, "interval", Shown.range(i)))
        .orElse(Phrase.of("draw.mean_alone", "mean", mean));
  }
}
