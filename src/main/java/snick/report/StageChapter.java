package snick.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snick.phrase.Phrase;
import snick.phrase.Words;
import snick.quantity.Force;
import snick.report.plot.NotedInWords;
import snick.report.plot.Shown;
import snick.verdict.burr.StageEvidence;
import snick.verdict.comparison.GroupFigures;

/** Figures and inspections of each stage beside one another. */
record StageChapter(SessionStory story, NotedInWords noted) {
  List<Block> blocks() {
    if (story.stages().isEmpty()) {
      return List.of(new Block.Paragraph(words().say("report.no_stage")));
    }
    List<Block> blocks = new ArrayList<>();
    blocks.add(figures());
    blocks.add(new Block.Paragraph(words().say("report.interval_is")));
    return blocks;
  }

  private Words words() {
    return noted.words();
  }

  private Block figures() {
    return new Block.Grid(
        List.of(
            Block.Column.words(words().say("mend.stage")),
            Block.Column.figures(words().say("report.cuts")),
            Block.Column.figures(words().say("report.mean")),
            Block.Column.figures(words().say("report.interval")),
            Block.Column.figures(words().say("report.sd")),
            Block.Column.words(words().say("report.inspections"))),
        story.stages().stream().map(this::figuresOf).toList());
  }

  private List<String> figuresOf(StageEvidence stage) {
    Optional<GroupFigures> figures =
        stage.readings().map(r -> GroupFigures.of(r, story.judge().rig()));
    return List.of(
        stage.stage().name(),
        String.valueOf(stage.cuts().size()),
        figures.map(f -> ShortStory.newtonsAndGf(f.meanGf())).orElse("–"),
        figures.flatMap(GroupFigures::ci95Gf).map(this::interval).orElse("–"),
        figures
            .filter(f -> f.sdGf().isPresent())
            .map(f -> ShortStory.newtonsAndGf(f.sdGf().getAsDouble()))
            .orElse("–"),
        noted.inspections(stage.inspections()));
  }

  private String interval(snick.verdict.statistic.Interval gf) {
    double unit = Force.NEWTONS_PER_GRAM_FORCE;
    return range(gf.low() * unit, gf.high() * unit, 3)
        + " N\n"
        + range(gf.low(), gf.high(), Math.abs(gf.high()) >= 10 ? 1 : 2)
        + " gf";
  }

  /** No force is below nothing, whatever an interval of two scattered cuts says. */
  private String range(double low, double high, int decimals) {
    return words()
        .say(
            Phrase.of("report.range")
                .with("low", Shown.fixed(Math.max(0, low), decimals))
                .with("high", Shown.fixed(high, decimals)));
  }
}
