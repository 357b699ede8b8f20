package snick.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snick.quantity.Force;
import snick.verdict.burr.BurrEvidence;
import snick.verdict.burr.StageEvidence;
import snick.verdict.comparison.Comparison;
import snick.verdict.comparison.GroupFigures;

/** Figures and inspections of each stage beside one another. */
record StageChapter(SessionStory story, Noted noted) {
  List<Block> blocks() {
    List<Block> blocks = new ArrayList<>();
    if (story.stages().isEmpty()) {
      return List.of(new Block.Paragraph("No stage was begun in this session."));
    }
    if (story.stages().stream().anyMatch(s -> s.readings().isPresent())) {
      blocks.add(
          new Block.Drawing(
              ProgressionPlot.of(story.session(), story.stages(), story.judge()),
              "Every cut and the mean of each stage. The lower the force, the keener the edge."
                  + " Percentages are against the stage before."));
    }
    blocks.add(figures());
    blocks.add(
        new Block.Paragraph(
            "The 95 % interval is that of the stage's mean by the scatter of its cuts; what the"
                + " calibration adds is the same for every stage and is told below."));
    blocks.add(new Block.Heading("What was done and what was seen"));
    blocks.add(inspections());
    return blocks;
  }

  private Block figures() {
    List<List<String>> rows = story.stages().stream().map(this::figuresOf).toList();
    return new Block.Grid(
        List.of(
            Block.Column.words("Stage"),
            Block.Column.figures("Cuts"),
            Block.Column.figures("Mean"),
            Block.Column.figures("95 % interval"),
            Block.Column.figures("SD"),
            Block.Column.words("Against the stage before")),
        rows);
  }

  private List<String> figuresOf(StageEvidence stage) {
    Optional<GroupFigures> figures =
        stage.readings().map(r -> GroupFigures.of(r, story.judge().rig()));
    return List.of(
        stage.stage().name(),
        String.valueOf(stage.cuts().size()),
        figures.map(f -> Shown.newtons(f.meanGf()) + "\n" + Shown.gf(f.meanGf())).orElse("–"),
        figures.flatMap(GroupFigures::ci95Gf).map(StageChapter::interval).orElse("–"),
        figures
            .filter(f -> f.sdGf().isPresent())
            .map(f -> newtonsAndGf(f.sdGf().getAsDouble()))
            .orElse("–"),
        comparison(stage).map(ProgressionPlot::change).orElse("–"));
  }

  private static String newtonsAndGf(double gramForce) {
    return Shown.newtons(gramForce) + "\n" + Shown.gf(gramForce);
  }

  private static String interval(snick.verdict.statistic.Interval gf) {
    double unit = Force.NEWTONS_PER_GRAM_FORCE;
    return Shown.fixed(gf.low() * unit, 3)
        + " to "
        + Shown.fixed(gf.high() * unit, 3)
        + " N\n"
        + Shown.range(gf);
  }

  private Optional<Comparison> comparison(StageEvidence stage) {
    return Steps.comparison(story, stage);
  }

  private Block inspections() {
    List<List<String>> rows = story.stages().stream().map(this::inspectionsOf).toList();
    return new Block.Grid(
        List.of(
            Block.Column.words("Stage"),
            Block.Column.words("What was done"),
            Block.Column.words("Inspections"),
            Block.Column.figures("Mean"),
            Block.Column.words("Burr")),
        rows);
  }

  private List<String> inspectionsOf(StageEvidence stage) {
    boolean anything = !stage.cuts().isEmpty() || !stage.inspections().isEmpty();
    return List.of(
        stage.stage().name(),
        noted.steps(stage.steps()),
        noted.inspections(stage.inspections()),
        stage.readings().map(r -> newtonsAndGf(r.meanGf())).orElse("–"),
        anything ? Shown.plain(new BurrEvidence(story.judge()).weigh(stage).burr().word()) : "–");
  }
}
