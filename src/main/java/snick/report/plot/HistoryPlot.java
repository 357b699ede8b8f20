package snick.report.plot;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;
import org.knowm.xchart.style.markers.SeriesMarkers;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;
import snick.phrase.Words;
import snick.quantity.Force;
import snick.verdict.comparison.GroupFigures;

/** Draws a blade over its sessions: force at the end of each, broken where the rig changed. */
public final class HistoryPlot {
  private static final int WIDTH = 900;
  private static final int HEIGHT = 400;
  private static final double ROOM = 0.15;
  private static final double BELOW = 0.03;

  private final BladeStory story;
  private final Words words;
  private final List<Dot> dots = new ArrayList<>();

  /** The force at the end of a session; {@code whole} if the line goes on from the one before. */
  private record Dot(long number, double newtons, double half, boolean whole) {}

  private HistoryPlot(BladeStory story, Words words) {
    this.story = story;
    this.words = words;
    for (BladeStory.Visit visit : story.visits()) {
      visit.last().ifPresent(last -> dots.add(dot(visit, last.figures())));
    }
  }

  private static Dot dot(BladeStory.Visit visit, GroupFigures figures) {
    double unit = Force.NEWTONS_PER_GRAM_FORCE;
    double half = figures.ci95Gf().map(i -> (i.high() - i.low()) / 2 * unit).orElse(0.0);
    return new Dot(visit.number(), figures.meanGf() * unit, half, visit.changed().isEmpty());
  }

  /**
   * The picture of a blade's story.
   *
   * @param words the language
   * @throws NotAccepted if no session has cuts enough
   */
  public static Picture of(BladeStory story, Words words) {
    HistoryPlot plot = new HistoryPlot(story, words);
    if (plot.dots.isEmpty()) {
      throw new NotAccepted("refused.blade_without_force", "blade", story.blade().label());
    }
    return plot.picture();
  }

  private Picture picture() {
    double high = dots.stream().mapToDouble(d -> d.newtons() + d.half()).max().orElseThrow();
    ForceChart chart =
        new ForceChart(words, title(), words.say("draw.sessions_axis"))
            .newtons(-BELOW * high, high * (1 + ROOM))
            .fromZero()
            .fromTo(0.5, dots.size() + 0.5)
            .wholeNumbers(this::session);
    chart.points(
        words.say("draw.session_end"),
        Look.BLUE,
        SeriesMarkers.SQUARE,
        each(i -> i + 1.0),
        each(i -> dots.get(i).newtons()),
        each(i -> dots.get(i).half()));
    lines(chart);
    return chart
        .alone(title(), description(), WIDTH, HEIGHT)
        .under(words.say(measured()), words.say("draw.history_foot"));
  }

  private Phrase measured() {
    int cuts = story.visits().stream().mapToInt(BladeStory.Visit::cuts).sum();
    List<String> rigs =
        story.visits().stream()
            .flatMap(visit -> visit.rigs().stream())
            .distinct()
            .map(Shown::shortened)
            .toList();
    return rigs.isEmpty()
        ? Phrase.of("draw.history_measured_no_rig", "n", cuts)
        : Phrase.of("draw.history_measured", "n", cuts, "rigs", rigs);
  }

  private String session(double place) {
    int i = (int) Math.rint(place) - 1;
    return i >= 0 && i < dots.size() ? Long.toString(dots.get(i).number()) : "";
  }

  private double[] each(IntToDoubleFunction of) {
    return IntStream.range(0, dots.size()).mapToDouble(of).toArray();
  }

  private void lines(ForceChart chart) {
    int from = 0;
    for (int i = 1; i <= dots.size(); i++) {
      if (i == dots.size() || !dots.get(i).whole()) {
        line(chart, from, i);
        from = i;
      }
    }
  }

  private void line(ForceChart chart, int from, int to) {
    if (to - from > 1) {
      double[] x = new double[to - from];
      double[] y = new double[to - from];
      for (int i = from; i < to; i++) {
        x[i - from] = i + 1.0;
        y[i - from] = dots.get(i).newtons();
      }
      chart.line("same rig " + from, Pen.GREY, Pen.MEDIUM, x, y).setShowInLegend(false);
    }
  }

  private String title() {
    List<BladeStory.Visit> told =
        story.visits().stream().filter(v -> v.last().isPresent()).toList();
    String first = Day.utc(told.get(0).session().opened());
    String last = Day.utc(told.get(told.size() - 1).session().opened());
    return words.count(
        "draw.history",
        dots.size(),
        "blade",
        Shown.shortened(story.blade().label()),
        "days",
        first.equals(last) ? first : Phrase.of("reason.range", "low", first, "high", last));
  }

  private String description() {
    return words.say(
        Phrase.of("draw.history_told")
            .with(
                "sessions",
                story.visits().stream().flatMap(visit -> told(visit).stream()).toList()));
  }

  private static Optional<Phrase> told(BladeStory.Visit visit) {
    return visit
        .last()
        .map(last -> Shown.gf(last.figures().meanGf()))
        .map(
            mean ->
                visit.changed().isEmpty()
                    ? Phrase.of("draw.session_told", "n", visit.number(), "mean", mean)
                    : Phrase.of("draw.session_told_changed")
                        .with("n", visit.number())
                        .with("mean", mean)
                        .with("what", visit.changed()));
  }
}
