package snick.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snick.cut.Outcome;
import snick.force.budget.DerivedForce;
import snick.phrase.Words;
import snick.quantity.Force;
import snick.quantity.MeasuredForce;
import snick.report.plot.CutPlot;
import snick.report.plot.NotedInWords;
import snick.report.plot.Shown;
import snick.report.plot.StageForces;
import snick.report.plot.StagePlot;
import snick.store.record.CutPlace;
import snick.store.record.CutSummary;
import snick.verdict.burr.StageEvidence;

/** Every cut with its figures; stages along the edge; one cut in detail. */
record CutChapter(SessionStory story, NotedInWords noted) {
  private static final int MOST_STAGES_DRAWN = 8;
  private static final int FEWEST_DRAWN = 3;

  List<Block> blocks() {
    if (story.cuts().isEmpty()) {
      return List.of(new Block.Paragraph(words().say("report.no_cut")));
    }
    List<Block> blocks = new ArrayList<>();
    blocks.add(new Block.Paragraph(words().say("report.cuts_are")));
    blocks.add(table());
    story.stages().stream()
        .filter(stage -> stage.cuts().size() >= FEWEST_DRAWN)
        .limit(MOST_STAGES_DRAWN)
        .forEach(stage -> blocks.add(along(stage)));
    story.example().ifPresent(cut -> blocks.add(detail(cut)));
    return blocks;
  }

  private Words words() {
    return noted.words();
  }

  private Block detail(snick.store.record.StoredCut cut) {
    return new Block.Drawing(
        CutPlot.of(cut, story.calibrationOf(cut), words()),
        words().say("report.cut_seen", "n", cut.id()));
  }

  private Block along(StageEvidence stage) {
    List<CutSummary> cuts =
        story.cuts().stream()
            .filter(c -> c.place().filter(p -> p.stage().equals(stage.stage())).isPresent())
            .toList();
    return new Block.Drawing(
        StagePlot.of(story.session(), stage.stage(), cuts, words()),
        words().say("report.stage_seen", "stage", stage.stage().name()));
  }

  private Block table() {
    return new Block.Grid(
        List.of(
            Block.Column.figures(words().say("report.cut")),
            Block.Column.words(words().say("mend.stage")),
            Block.Column.figures(words().say("report.place")),
            Block.Column.figures(words().say("report.force_n")),
            Block.Column.figures(words().say("report.force_gf")),
            Block.Column.words(words().say("report.outcome"))),
        story.cuts().stream().map(this::row).toList());
  }

  private List<String> row(CutSummary cut) {
    Optional<MeasuredForce> force = StageForces.of(cut);
    return List.of(
        String.valueOf(cut.id()),
        cut.place().map(p -> p.stage().name()).orElse("–"),
        cut.place().map(CutChapter::millimetres).orElse("–"),
        force.map(f -> Shown.plusMinus(f.value().newtons(), Shown.expandedNewtons(f))).orElse("–"),
        force.map(CutChapter::gramForce).orElse("–"),
        outcome(cut));
  }

  private String aside(String why) {
    return noted.personal()
        ? words().say("cut.set_aside", "why", why)
        : words().say("report.aside");
  }

  private static String gramForce(MeasuredForce force) {
    double expanded = Shown.expandedNewtons(force) / Force.NEWTONS_PER_GRAM_FORCE;
    return Shown.plusMinus(force.value().gramForce(), expanded);
  }

  private static String millimetres(CutPlace place) {
    return place.placeMm().isPresent()
        ? NotedInWords.plain(place.placeMm().getAsDouble()) + " mm"
        : "–";
  }

  /** What is out of the ordinary; nothing for a filament that parted at once. */
  private String outcome(CutSummary cut) {
    List<String> parts = new ArrayList<>();
    if (cut.figures().outcome() != Outcome.SEVERED) {
      parts.add(words().named("outcome", cut.figures().outcome()));
    }
    if (cut.force().filter(f -> f.estimate() instanceof DerivedForce.Outside).isPresent()) {
      parts.add(words().say("report.beyond"));
    }
    if (cut.figures().peak().isPresent() && cut.force().isEmpty()) {
      parts.add(words().say("cut.no_calibration"));
    }
    cut.figures().flags().stream().sorted().forEach(flag -> parts.add(words().named("flag", flag)));
    cut.setAside().ifPresent(why -> parts.add(aside(why)));
    return String.join("; ", parts);
  }
}
