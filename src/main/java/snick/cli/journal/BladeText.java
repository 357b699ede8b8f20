package snick.cli.journal;

import java.io.PrintWriter;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import snick.cli.terminal.Figures;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.Said;
import snick.cli.terminal.Table;
import snick.json.Json;
import snick.report.plot.BladeStory;
import snick.verdict.comparison.Comparison;
import snick.verdict.comparison.GroupFigures;
import snick.verdict.study.StepWorth;

/** A blade over its sessions, for people and programs. */
record BladeText(BladeStory story) {
  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("uuuu-MM-dd", Locale.ROOT).withZone(ZoneId.systemDefault());

  /** Prints what there is. */
  void print(PrintWriter out) {
    if (story.visits().isEmpty()) {
      out.println("no sessions yet");
      return;
    }
    visits(out);
    steps(out);
  }

  private void visits(PrintWriter out) {
    out.println();
    out.println("Force at the end of each session, gf:");
    Table table =
        new Table(
            "SESSION",
            "DAY",
            "STAGE",
            "MEAN",
            "95 % INTERVAL",
            "CUTS IN ALL",
            "SINCE THE ONE BEFORE");
    for (BladeStory.Visit visit : story.visits()) {
      Optional<GroupFigures> end = visit.last().map(BladeStory.StageFigures::figures);
      table.row(
          visit.number() + " " + PlainText.inert(visit.session().name()),
          DAY.format(visit.session().opened()),
          visit.last().map(l -> PlainText.inert(l.stage())).orElse("-"),
          end.map(f -> Figures.number(f.meanGf())).orElse("-"),
          end.map(f -> Figures.range(f.ci95Gf())).orElse("-"),
          visit.cuts(),
          since(visit));
    }
    table.print(out);
  }

  /** Wear, or why there is none to tell. */
  private static String since(BladeStory.Visit visit) {
    if (!visit.changed().isEmpty()) {
      return "other " + visit.changed().stream().map(Said::raw).collect(Collectors.joining(", "));
    }
    return visit
        .wear()
        .map(w -> Figures.signedGf(w.differenceGf()) + ", " + w.verdict().plain())
        .orElse("-");
  }

  private void steps(PrintWriter out) {
    if (story.steps().isEmpty()) {
      return;
    }
    out.println();
    out.println(
        "What sharpening was worth so far, gf"
            + (steel().isEmpty() ? "" : ", on " + steel())
            + ":");
    Table table = new Table("STEP", "MEAN CHANGE", "95 % INTERVAL", "TIMES");
    for (StepWorth worth : story.steps()) {
      table.row(
          Said.of(worth.step()),
          Figures.signedGf(worth.change().meanGf()),
          Figures.range(worth.change().ci95Gf()),
          worth.change().n());
    }
    table.print(out);
  }

  private String steel() {
    return PlainText.inert(story.blade().steel());
  }

  /** Everything as one object, forces in gf. */
  Map<String, Object> json() {
    return Json.object(
        "blade", story.blade().label(),
        "sessions", story.visits().stream().map(BladeText::visit).toList(),
        "steps", story.steps().stream().map(BladeText::step).toList());
  }

  private static Map<String, Object> visit(BladeStory.Visit visit) {
    return Json.object(
        "number", visit.number(),
        "name", visit.session().name(),
        "opened", visit.session().opened().toString(),
        "rig", visit.session().equipment().rig().orElse(null),
        "filament_lot", visit.session().equipment().filamentLot().orElse(null),
        "calibration", visit.session().equipment().calibration().orElse(null),
        "changed", visit.changed().stream().map(Said::raw).toList(),
        "cuts", visit.cuts(),
        "first", visit.first().map(BladeText::stage).orElse(null),
        "last", visit.last().map(BladeText::stage).orElse(null),
        "wear", visit.wear().map(BladeText::wear).orElse(null));
  }

  private static Map<String, Object> stage(BladeStory.StageFigures stage) {
    Map<String, Object> object = figures(stage.figures());
    object.put("stage", stage.stage());
    return object;
  }

  private static Map<String, Object> figures(GroupFigures figures) {
    return Json.object(
        "n", figures.n(),
        "mean", figures.meanGf(),
        "ci95", figures.ci95Gf().map(Figures::ends).orElse(null));
  }

  private static Map<String, Object> wear(Comparison wear) {
    return Json.object(
        "difference", wear.differenceGf(),
        "verdict", wear.verdict().word());
  }

  private static Map<String, Object> step(StepWorth worth) {
    Map<String, Object> object = figures(worth.change());
    object.put("step", Said.raw(worth.step()));
    return object;
  }
}
