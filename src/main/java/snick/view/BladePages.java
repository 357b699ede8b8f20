package snick.view;

import java.util.Map;
import java.util.Optional;
import snick.journal.Blade;
import snick.json.Json;
import snick.report.plot.BladeStory;
import snick.report.plot.HistoryPlot;
import snick.report.plot.Picture;
import snick.verdict.comparison.Comparison;
import snick.verdict.comparison.GroupFigures;
import snick.verdict.study.StepWorth;
import snick.view.bench.Bench;
import snick.view.http.Request;

/** Blades and how they did over time. */
final class BladePages {
  private final Bench bench;
  private final Archive archive;

  BladePages(Bench bench, Archive archive) {
    this.bench = bench;
    this.archive = archive;
  }

  /** Every blade, in the order added. */
  Map<String, Object> blades(Request request) {
    return Json.object(
        "blades", archive.reader().journal().blades().stream().map(BladePages::blade).toList());
  }

  private static Map<String, Object> blade(Blade blade) {
    return Json.object(
        "label", blade.label(),
        "steel", Optional.of(blade.steel()).filter(steel -> !steel.isEmpty()),
        "edge_length_mm", blade.edgeLengthMm(),
        "margin_gf", blade.marginGf());
  }

  /** A blade over its sessions. */
  Map<String, Object> history(Request request) {
    BladeStory story = story(request);
    return Json.object(
        "blade", blade(story.blade()),
        "sessions", story.visits().stream().map(this::visit).toList(),
        "steps", story.steps().stream().map(this::step).toList());
  }

  /** The same as a picture. */
  Picture picture(Request request) {
    return HistoryPlot.of(story(request), archive.words());
  }

  private BladeStory story(Request request) {
    Blade blade = archive.reader().journal().bladeMeant(request.needed("blade"));
    return BladeStory.read(archive.reader(), blade, bench.preferences().marginGf());
  }

  private Map<String, Object> visit(BladeStory.Visit visit) {
    return Json.object(
        "number", visit.number(),
        "name", visit.session().name(),
        "opened", visit.session().opened().toString(),
        "rig", visit.session().equipment().rig(),
        "filament_lot", visit.session().equipment().filamentLot(),
        "calibration", visit.session().equipment().calibration(),
        "changed", visit.changed().stream().map(archive.words()::say).toList(),
        "cuts", visit.cuts(),
        "first", visit.first().map(BladePages::stage),
        "last", visit.last().map(BladePages::stage),
        "wear", visit.wear().map(BladePages::wear));
  }

  private static Map<String, Object> stage(BladeStory.StageFigures stage) {
    Map<String, Object> object = figures(stage.figures());
    object.put("stage", stage.stage());
    return object;
  }

  private static Map<String, Object> wear(Comparison wear) {
    return Json.object("change", wear.verdict().word(), "difference_gf", wear.differenceGf());
  }

  private Map<String, Object> step(StepWorth worth) {
    Map<String, Object> object = figures(worth.change());
    object.put("step", archive.words().say(worth.step()));
    return object;
  }

  private static Map<String, Object> figures(GroupFigures figures) {
    return Json.object(
        "n", figures.n(),
        "mean_gf", figures.meanGf(),
        "ci95_gf", figures.ci95Gf().map(StageVerdicts::ends));
  }
}
