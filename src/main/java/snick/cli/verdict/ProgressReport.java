package snick.cli.verdict;

import java.io.PrintWriter;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.cli.option.DataDirectory;
import snick.cli.option.JudgeChoice;
import snick.cli.terminal.Figures;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.Said;
import snick.cli.terminal.Table;
import snick.json.Json;
import snick.verdict.burr.StageEvidence;
import snick.verdict.comparison.GroupFigures;
import snick.verdict.comparison.Grubbs;
import snick.verdict.comparison.Judge;
import snick.verdict.comparison.Progression;
import snick.verdict.comparison.ScatterAgainstRig;

/**
 * A progression for people and programs.
 *
 * @param session its name
 * @param stages every stage, also those with too few cuts
 * @param judge margin and rig
 * @param progression of the stages with cuts enough; empty with fewer than two of them
 */
record ProgressReport(
    String session, List<StageEvidence> stages, Judge judge, Optional<Progression> progression) {

  /** Prints all; {@code chosen} is how the session was chosen, for the commands to type next. */
  void print(PrintWriter out, DataDirectory data, String chosen) {
    out.println(PlainText.inert("session '" + session + "'"));
    stageTable().print(out);
    notes(out);
    JudgeChoice.marginLine(judge).map(PlainText::inert).ifPresent(out::println);
    out.println();
    progression.ifPresentOrElse(
        p -> {
          printSteps(out, p);
          next(chosen).forEach(line -> out.println(PlainText.inert(data.in(line))));
        },
        () -> out.println("Nothing to compare yet: 2 stages with 2 cuts or more are needed."));
  }

  private List<String> next(String chosen) {
    String behind = "What stands behind one step: snick compare STAGE STAGE" + chosen;
    return judge.marginGf().isPresent()
        ? List.of(behind)
        : List.of(
            "Say what is too small to matter: snick progress --margin GF" + chosen,
            "To keep it for all blades: snick settings margin GF",
            behind);
  }

  private static void printSteps(PrintWriter out, Progression progression) {
    stepTable(progression).print(out);
    out.println();
    out.println("Plateau: " + state(progression.plateau()).replace('_', ' '));
    ComparisonText.print(out, progression.plateau().reason());
  }

  private List<GroupFigures> figures() {
    return stages.stream()
        .flatMap(stage -> stage.readings().stream())
        .map(readings -> GroupFigures.of(readings, judge.rig()))
        .toList();
  }

  private Table stageTable() {
    Table table = new Table("STAGE", ">CUTS", ">MEAN gf", ">SD gf", ">95 % OF THE MEAN");
    for (GroupFigures f : figures()) {
      table.row(
          f.name(),
          f.n(),
          Figures.number(f.meanGf()),
          Figures.number(f.sdGf()),
          Figures.range(f.ci95Gf()));
    }
    return table;
  }

  private void notes(PrintWriter out) {
    for (StageEvidence stage : stages) {
      int cuts = stage.cuts().size();
      if (cuts < 2) {
        out.println(
            PlainText.inert(
                "  '%s' is not compared: %s with a force that counts"
                    .formatted(stage.stage().name(), cuts == 0 ? "no cut" : "only 1 cut")));
      }
    }
    for (GroupFigures f : figures()) {
      f.scatterReason().ifPresent(r -> out.println("  " + Said.of(r.evidence()) + "."));
      f.outlier().ifPresent(g -> out.println("  " + PlainText.inert(standsOut(f, g))));
    }
  }

  private static String standsOut(GroupFigures figures, Grubbs outlier) {
    return "%s: %s stands out (Grubbs, 5 %%); it is kept"
        .formatted(figures.name(), Figures.gf(outlier.valueGf()));
  }

  private static Table stepTable(Progression progression) {
    Table table =
        new Table("STEP TO", ">CHANGE gf", ">95 %", ">p, HOLM", "VERDICT", ">OF THE FALL");
    progression.steps().forEach(step -> row(table, step));
    table.row(
        "first to last",
        signed(progression.whole().differenceGf()),
        Figures.range(progression.whole().ci95Gf()),
        "",
        progression.whole().verdict().plain(),
        "");
    return table;
  }

  private static void row(Table table, Progression.Step step) {
    table.row(
        step.comparison().second().name(),
        signed(step.comparison().differenceGf()),
        Figures.range(step.comparison().ci95Gf()),
        Figures.p(step.holmP()).replace("p = ", "").replace("p ", ""),
        step.change().plain(),
        share(step.shareOfGain()));
  }

  private static String signed(double gramForce) {
    return (gramForce > 0 ? "+" : "") + Figures.number(gramForce);
  }

  private static String share(OptionalDouble share) {
    return share.isPresent() ? Figures.percent(share.getAsDouble()) : "";
  }

  private static String state(Progression.Plateau plateau) {
    if (plateau instanceof Progression.Plateau.Reached) {
      return "reached";
    }
    if (plateau instanceof Progression.Plateau.KeenerBefore) {
      return "keener_before";
    }
    return plateau instanceof Progression.Plateau.NotShown ? "not_shown" : "not_judged";
  }

  Map<String, Object> object() {
    return Json.object(
        "session", session,
        "margin_gf", Figures.orNull(judge.marginGf()),
        "margin_from", judge.marginFrom().map(Said::raw).orElse(""),
        "stages", figures().stream().map(ProgressReport::object).toList(),
        "steps", progression.map(ProgressReport::steps).orElse(List.of()),
        "whole", progression.map(Progression::whole).map(ComparisonJson::of).orElse(null),
        "plateau", progression.map(Progression::plateau).map(ProgressReport::object).orElse(null));
  }

  private static List<Map<String, Object>> steps(Progression progression) {
    return progression.steps().stream().map(ProgressReport::object).toList();
  }

  private static Map<String, Object> object(Progression.Plateau plateau) {
    return Json.object(
        "state", state(plateau),
        "since", plateau instanceof Progression.Plateau.Reached r ? r.since() : null,
        "reason", Said.raw(plateau.reason().text()));
  }

  private static Map<String, Object> object(GroupFigures f) {
    return Json.object(
        "name", f.name(),
        "n", f.n(),
        "mean", f.meanGf(),
        "sd", Figures.orNull(f.sdGf()),
        "ci95", ComparisonJson.ends(f.ci95Gf()),
        "scatter_ratio", f.scatter().map(ScatterAgainstRig::ratio).orElse(null),
        "scatter_p", f.scatter().map(ScatterAgainstRig::p).orElse(null),
        "outlier", f.outlier().map(Grubbs::valueGf).orElse(null));
  }

  private static Map<String, Object> object(Progression.Step step) {
    Map<String, Object> object = ComparisonJson.of(step.comparison());
    object.put("holm_p", step.holmP());
    object.put("verdict_holm", step.change().word());
    object.put("share_of_fall", Figures.orNull(step.shareOfGain()));
    return object;
  }
}
