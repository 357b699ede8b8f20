package snick.report.plot;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.knowm.xchart.style.markers.SeriesMarkers;
import snick.journal.Session;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;
import snick.phrase.Words;
import snick.quantity.Force;
import snick.verdict.burr.StageEvidence;
import snick.verdict.comparison.Comparison;
import snick.verdict.comparison.GroupFigures;
import snick.verdict.comparison.Judge;
import snick.verdict.statistic.Readings;

/** Draws the stages of a session side by side: every cut, means with intervals, verdicts. */
public final class ProgressionPlot {
  private static final int WIDTH = 900;
  private static final int HEIGHT = 470;
  private static final int NAMED_STAGES = 8;
  private static final int LETTERS_ACROSS = 78;

  /** A column holds so many letters at least: the longest word of a verdict. */
  private static final int FEWEST_LETTERS = 11;

  private static final int LINES_OF_A_NAME = 2;
  private static final int LINES_OF_A_CHANGE = 4;

  /** Places above and below zero, in parts of the highest force. */
  private static final double LINE = 0.07;

  private static final double BELOW_ZERO = 0.045;
  private static final double ABOVE_CUTS = 0.06;
  private static final double ABOVE = 1.2;
  private static final double CUTS_LEFT = -0.22;
  private static final double CUTS_WIDE = 0.2;
  private static final double MEAN_RIGHT = 0.14;

  private final List<Readings> stages;
  private final Judge judge;
  private final Words words;
  private final List<List<String>> names;
  private final List<List<String>> changes;

  private ProgressionPlot(List<Readings> stages, Judge judge, Words words) {
    this.words = words;
    this.stages = stages;
    this.judge = judge;
    this.names = IntStream.range(0, stages.size()).mapToObj(this::name).toList();
    this.changes = IntStream.range(0, stages.size()).mapToObj(this::change).toList();
  }

  /**
   * The picture of a session.
   *
   * @param stages evidence of its stages, in order
   * @param words the language
   * @throws NotAccepted if no stage has a cut with a force
   */
  public static Picture of(Session session, List<StageEvidence> stages, Judge judge, Words words) {
    List<Readings> withCuts = stages.stream().flatMap(stage -> stage.readings().stream()).toList();
    if (withCuts.isEmpty()) {
      throw new NotAccepted("refused.session_without_force", "session", session.name());
    }
    int cuts = withCuts.stream().mapToInt(Readings::count).sum();
    return new ProgressionPlot(withCuts, judge, words)
        .picture(session.name())
        .under(words.say(Shown.origin(session, cuts)));
  }

  private Picture picture(String session) {
    ForceChart chart = chart();
    cuts(chart);
    List<GroupFigures> figures = stages.stream().map(s -> GroupFigures.of(s, judge.rig())).toList();
    means(chart, figures);
    names(chart);
    changes(chart);
    return chart.alone(
        words.say("draw.progression", "session", session), description(figures), WIDTH, HEIGHT);
  }

  private double highest() {
    return stages.stream().mapToDouble(this::highest).max().orElseThrow();
  }

  private double highest(Readings stage) {
    double top = Arrays.stream(stage.gramForce()).max().orElseThrow();
    double interval = GroupFigures.of(stage, judge.rig()).ci95Gf().map(i -> i.high()).orElse(top);
    return Math.max(top, interval) * Force.NEWTONS_PER_GRAM_FORCE;
  }

  private ForceChart chart() {
    double high = highest();
    double below = BELOW_ZERO + LINE * (most(names) + 0.6);
    double above = ABOVE;
    for (int i = 0; i < stages.size(); i++) {
      double cuts = highest(stages.get(i)) / high;
      above = Math.max(above, cuts + ABOVE_CUTS + LINE * changes.get(i).size());
    }
    return new ForceChart(words, words.say("draw.stages"), words.say("draw.stages_axis"))
        .newtons(-below * high, above * high)
        .fromTo(0.5, stages.size() + 0.5)
        .fromZero()
        .withoutNumbers();
  }

  private static int most(List<List<String>> texts) {
    return texts.stream().mapToInt(List::size).max().orElse(0);
  }

  private void cuts(ForceChart chart) {
    List<Double> x = new ArrayList<>();
    List<Double> y = new ArrayList<>();
    for (int i = 0; i < stages.size(); i++) {
      double[] gramForce = stages.get(i).gramForce();
      for (int k = 0; k < gramForce.length; k++) {
        x.add(i + 1 + CUTS_LEFT + CUTS_WIDE * (k + 0.5) / gramForce.length);
        y.add(gramForce[k] * Force.NEWTONS_PER_GRAM_FORCE);
      }
    }
    chart.points(words.say("draw.single_cut"), Pen.GREY, Pen.RING, array(x), array(y));
  }

  private static double[] array(List<Double> values) {
    return values.stream().mapToDouble(v -> v).toArray();
  }

  private void means(ForceChart chart, List<GroupFigures> figures) {
    double unit = Force.NEWTONS_PER_GRAM_FORCE;
    double[] x = IntStream.range(0, figures.size()).mapToDouble(i -> i + 1 + MEAN_RIGHT).toArray();
    double[] y = figures.stream().mapToDouble(f -> f.meanGf() * unit).toArray();
    double[] half =
        figures.stream()
            .mapToDouble(f -> f.ci95Gf().map(i -> (i.high() - i.low()) / 2 * unit).orElse(0.0))
            .toArray();
    chart.points(words.say("draw.mean_bars"), Look.BLUE, SeriesMarkers.SQUARE, x, y, half);
  }

  private void names(ForceChart chart) {
    double high = highest();
    for (int i = 0; i < stages.size(); i++) {
      List<String> lines = new ArrayList<>(names.get(i));
      lines.add(words.count("reason.cuts", stages.get(i).count()));
      for (int k = 0; k < lines.size(); k++) {
        chart.text(lines.get(k), i + 1.0, -(BELOW_ZERO + k * LINE) * high);
      }
    }
    chart.level("zero", Look.INK, Pen.MEDIUM, 0).setShowInLegend(false);
  }

  private void changes(ForceChart chart) {
    double high = highest();
    for (int i = 0; i < stages.size(); i++) {
      double foot = highest(stages.get(i)) + ABOVE_CUTS * high;
      List<String> lines = changes.get(i);
      for (int k = 0; k < lines.size(); k++) {
        chart.text(lines.get(k), i + 1.0, foot + (lines.size() - 1 - k) * LINE * high);
      }
    }
  }

  private List<String> name(int stage) {
    return stages.size() <= NAMED_STAGES
        ? lines(stages.get(stage).name(), stages.size(), LINES_OF_A_NAME)
        : List.of(Integer.toString(stage + 1));
  }

  /** What is said above a stage; nothing above the first, nor where there is no room. */
  private List<String> change(int stage) {
    boolean told =
        stage > 0
            && stages.size() <= NAMED_STAGES
            && stages.get(stage - 1).count() >= 2
            && stages.get(stage).count() >= 2;
    return told
        ? lines(
            change(judge.compare(stages.get(stage - 1), stages.get(stage)), words),
            stages.size(),
            LINES_OF_A_CHANGE)
        : List.of();
  }

  /** {@code text} in lines that fit into a column beside others. */
  static List<String> lines(String text, int columns, int most) {
    return Shown.lines(text, Math.max(FEWEST_LETTERS, LETTERS_ACROSS / columns), most);
  }

  /** The change in words, with its share of the force before where that is above zero. */
  static String change(Comparison c, Words words) {
    double before = c.first().meanGf();
    String share = before > 0 ? ", " + Shown.signedPercent(c.differenceGf() / before) : "";
    return words.named("report.is", c.verdict()) + share.replace(" %", "\u00a0%");
  }

  private String description(List<GroupFigures> figures) {
    return words.say(
        "draw.progression_told", "stages", figures.stream().map(ProgressionPlot::told).toList());
  }

  private static Phrase told(GroupFigures f) {
    return Phrase.of("draw.stage_told", "name", f.name(), "mean", StagePlot.told(f), "n", f.n());
  }
}
