package snick.report;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.knowm.xchart.style.markers.SeriesMarkers;
import snick.quantity.Force;
import snick.verdict.Comparison;
import snick.verdict.GroupFigures;
import snick.verdict.Judge;
import snick.verdict.Readings;
import snick.verdict.StageEvidence;

/** Draws the stages of a session side by side: every cut, means with intervals, verdicts. */
public final class ProgressionPlot {
  private static final int WIDTH = 900;
  private static final int HEIGHT = 470;
  private static final int NAMED_STAGES = 8;
  private static final double LETTERS_ACROSS = 78;
  private static final double BELOW = 0.16;
  private static final double ABOVE = 1.2;
  private static final double CUTS_LEFT = -0.22;
  private static final double CUTS_WIDE = 0.2;
  private static final double MEAN_RIGHT = 0.14;

  private final List<Readings> stages;
  private final Judge judge;

  private ProgressionPlot(List<Readings> stages, Judge judge) {
    this.stages = stages;
    this.judge = judge;
  }

  /**
   * The picture of a session.
   *
   * @param stages evidence of its stages, in order
   * @throws NothingToDraw if no stage has a cut with a force
   */
  public static Picture of(String session, List<StageEvidence> stages, Judge judge) {
    List<Readings> withCuts = stages.stream().flatMap(stage -> stage.readings().stream()).toList();
    if (withCuts.isEmpty()) {
      throw new NothingToDraw(
          "session '" + session + "' has no cut with a cut-through force: cut, with a calibration");
    }
    return new ProgressionPlot(withCuts, judge).picture(session);
  }

  private Picture picture(String session) {
    ForceChart chart = chart();
    cuts(chart);
    List<GroupFigures> figures = stages.stream().map(s -> GroupFigures.of(s, judge.rig())).toList();
    means(chart, figures);
    names(chart);
    changes(chart);
    return new Picture(
        "Session " + Shown.shortened(session) + ", stage by stage",
        description(figures),
        HEIGHT,
        List.of(new Picture.Panel(chart.chart(), WIDTH)));
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
    return new ForceChart("Cut-through force, stage by stage", "stage")
        .newtons(-BELOW * high, ABOVE * high)
        .fromTo(0.5, stages.size() + 0.5)
        .fromZero()
        .withoutNumbers();
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
    chart.points("single cut", Pen.GREY, Pen.RING, array(x), array(y));
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
    chart.points("mean with its 95 % interval", Look.BLUE, SeriesMarkers.SQUARE, x, y, half);
  }

  private void names(ForceChart chart) {
    double high = highest();
    int letters = (int) (LETTERS_ACROSS / stages.size());
    for (int i = 0; i < stages.size(); i++) {
      Readings stage = stages.get(i);
      String name =
          stages.size() <= NAMED_STAGES ? Shown.shortened(stage.name(), letters) : "" + (i + 1);
      chart.text(name, i + 1.0, -0.045 * high);
      chart.text("n = " + stage.count(), i + 1.0, -0.115 * high);
    }
    chart.level("zero", Look.INK, Pen.MEDIUM, 0).setShowInLegend(false);
  }

  private void changes(ForceChart chart) {
    for (int i = 1; i < stages.size(); i++) {
      Readings before = stages.get(i - 1);
      Readings now = stages.get(i);
      double y = highest(now) + 0.06 * highest();
      if (before.count() >= 2 && now.count() >= 2 && stages.size() <= NAMED_STAGES) {
        chart.text(change(judge.compare(before, now)), i + 1.0, y);
      }
    }
  }

  /** The change in words, with its share of the force before where that is above zero. */
  static String change(Comparison c) {
    double before = c.first().meanGf();
    String share = before > 0 ? ", " + Shown.signedPercent(c.differenceGf() / before) : "";
    return Shown.plain(c.verdict().word()) + share;
  }

  private String description(List<GroupFigures> figures) {
    String told =
        figures.stream()
            .map(
                f ->
                    f.name()
                        + ": mean "
                        + Shown.newtons(f.meanGf())
                        + " = "
                        + Shown.gf(f.meanGf())
                        + f.ci95Gf().map(i -> ", 95 % interval " + Shown.range(i)).orElse("")
                        + ", n = "
                        + f.n())
            .collect(Collectors.joining("; "));
    return "Cut-through force in N and gf for each stage, every cut and the mean. " + told + ".";
  }
}
