package snick.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import snick.cut.Flag;
import snick.quantity.Force;
import snick.quantity.MeasuredForce;
import snick.store.CutPlace;
import snick.store.CutSummary;
import snick.verdict.burr.StageEvidence;

/** Every cut with its figures; stages along the edge; one cut in detail. */
record CutChapter(SessionStory story, Noted noted) {
  private static final int MOST_STAGES_DRAWN = 8;
  private static final int FEWEST_DRAWN = 3;

  List<Block> blocks() {
    if (story.cuts().isEmpty()) {
      return List.of(new Block.Paragraph("Nothing was cut in this session."));
    }
    List<Block> blocks = new ArrayList<>();
    blocks.add(
        new Block.Paragraph(
            "± is the expanded uncertainty with coverage factor k = 2, about 95 %: calibration and"
                + " peak estimate together. Places are measured from the heel. Cuts set aside stay"
                + " in the record, but no mean and no verdict counts them."));
    blocks.add(table());
    story.example().ifPresent(cut -> blocks.add(detail(cut)));
    story.stages().stream()
        .filter(stage -> stage.cuts().size() >= FEWEST_DRAWN)
        .limit(MOST_STAGES_DRAWN)
        .forEach(stage -> blocks.add(along(stage)));
    return blocks;
  }

  private Block detail(snick.store.StoredCut cut) {
    return new Block.Drawing(
        CutPlot.of(cut, story.calibrationOf(cut)),
        "Cut "
            + cut.id()
            + " in detail: the force rises until the filament parts. The amplifier's filter rounds"
            + " the peak off, so the largest sample reads low; the estimate follows the loading"
            + " line to the instant of the break.");
  }

  private Block along(StageEvidence stage) {
    List<CutSummary> cuts =
        story.cuts().stream()
            .filter(c -> c.place().filter(p -> p.stage().equals(stage.stage())).isPresent())
            .toList();
    return new Block.Drawing(
        StagePlot.of(story.session(), stage.stage(), cuts),
        "Stage '" + stage.stage().name() + "': its cuts where they were made.");
  }

  private Block table() {
    return new Block.Grid(
        List.of(
            Block.Column.figures("Cut"),
            Block.Column.words("Stage"),
            Block.Column.figures("Place"),
            Block.Column.figures("Force / N"),
            Block.Column.figures("Force / gf"),
            Block.Column.words("Outcome")),
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

  private static String gramForce(MeasuredForce force) {
    double expanded = Shown.expandedNewtons(force) / Force.NEWTONS_PER_GRAM_FORCE;
    return Shown.plusMinus(force.value().gramForce(), expanded);
  }

  private static String millimetres(CutPlace place) {
    return place.placeMm().isPresent() ? Noted.plain(place.placeMm().getAsDouble()) + " mm" : "–";
  }

  private String outcome(CutSummary cut) {
    String flags =
        cut.result().flags().stream()
            .sorted()
            .map(Flag::word)
            .map(Shown::plain)
            .collect(Collectors.joining(", "));
    String outcome = Shown.plain(cut.result().outcome().word());
    String aside =
        cut.setAside().map(why -> "; set aside" + (noted.personal() ? ": " + why : "")).orElse("");
    return outcome + (flags.isEmpty() ? "" : "; " + flags) + aside;
  }
}
