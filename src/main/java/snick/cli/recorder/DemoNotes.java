package snick.cli.recorder;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.stream.Collectors;
import snick.cli.journal.Advice;
import snick.cli.journal.JournalText;
import snick.cli.terminal.Figures;
import snick.cli.terminal.Table;
import snick.cli.verdict.ProgressCommand;
import snick.journal.EdgeDirection;
import snick.journal.Inspection;
import snick.journal.InspectionWords;
import snick.journal.Pressure;
import snick.journal.SharpeningStep;
import snick.journal.SharpeningStep.Grain;
import snick.journal.Stage;
import snick.store.JournalWriter;
import snick.store.SessionEvidence;
import snick.store.StoreReader;
import snick.verdict.burr.BurrClue;
import snick.verdict.burr.BurrEvidence;
import snick.verdict.burr.BurrVerdict;
import snick.verdict.burr.CheckTrust;
import snick.verdict.burr.StageEvidence;
import snick.verdict.comparison.Judge;
import snick.verdict.comparison.Progression;

/**
 * What the demo's invented sharpener writes down, and what the verdicts make of it.
 *
 * @param journal where it is noted
 * @param data directory of the same store
 * @param session name of the demo's session
 * @param out where the verdicts go
 */
record DemoNotes(JournalWriter journal, Path data, String session, PrintWriter out) {
  private static final double MARGIN_GF = 6;

  private static final Map<String, List<String>> LOOKS =
      Map.of(
          "as found", List.of("l light burr", "r light none", "paper tears"),
          "deburred", List.of("l light none", "r light none", "paper catches"),
          "stropped", List.of("l light none", "r light none", "paper clean"),
          "stropped again", List.of("l light none", "r light none", "paper clean"));

  /** Notes the step that led to a stage, if there was one. */
  void step(Stage stage, Instant at) {
    if (stage.order() > 1) {
      SharpeningStep step = stage.order() == 2 ? rod(stage, at) : strop(stage, at);
      journal.add(session, step);
      out.println("  noted: " + JournalText.entry(step));
    }
  }

  private static SharpeningStep rod(Stage stage, Instant at) {
    return step(stage, at, "ceramic rod", EdgeDirection.EDGE_LEADING, 5, Pressure.LIGHT);
  }

  private static SharpeningStep strop(Stage stage, Instant at) {
    return step(stage, at, "leather strop", EdgeDirection.EDGE_TRAILING, 20, Pressure.VERY_LIGHT);
  }

  private static SharpeningStep step(
      Stage stage,
      Instant at,
      String abrasive,
      EdgeDirection direction,
      int strokes,
      Pressure pressure) {
    return new SharpeningStep(
        at,
        stage.name(),
        abrasive,
        new Grain(OptionalInt.empty(), OptionalDouble.empty()),
        Optional.of(direction),
        OptionalInt.of(strokes),
        Optional.of(pressure),
        "");
  }

  /** Notes the looks for a burr in a stage. */
  void looks(Stage stage, Instant at) {
    for (String words : LOOKS.getOrDefault(stage.name(), List.of())) {
      Inspection look = InspectionWords.parse(words).complete(at, stage, Optional.empty());
      journal.add(session, look);
      out.println("  noted: " + JournalText.entry(look));
    }
  }

  /** What the verdicts say at the end. */
  void verdicts() {
    try (StoreReader reader = StoreReader.open(data)) {
      SessionEvidence evidence = SessionEvidence.read(reader, session);
      Judge judge = Judge.withMarginGf(MARGIN_GF);
      out.println(
          "Verdicts, with a margin of "
              + Figures.gf(MARGIN_GF)
              + " (margin, steps and inspections are invented):");
      ProgressCommand.progression(evidence.stages(), judge).ifPresent(this::print);
      evidence.stages().forEach(stage -> print(stage, judge));
      CheckTrust.of(List.of(evidence.stages()), judge).forEach(this::print);
      out.println("  next: " + Advice.line(evidence, judge));
    }
  }

  private void print(Progression progression) {
    Table table = new Table("  STEP TO", ">CHANGE gf", ">p, HOLM", "VERDICT");
    for (Progression.Step step : progression.steps()) {
      table.row(
          "  " + step.comparison().second().name(),
          Figures.number(step.comparison().differenceGf()),
          Figures.p(step.holmP()).replaceFirst("p (= )?", ""),
          step.change().plain());
    }
    table.print(out);
    out.println(
        progression.plateau() instanceof Progression.Plateau.Reached reached
            ? "  plateau: reached since '" + reached.since() + "': no measurable gain after it"
            : "  plateau: not shown");
  }

  private void print(StageEvidence stage, Judge judge) {
    BurrVerdict verdict = new BurrEvidence(judge).weigh(stage);
    out.println(
        "  burr, %s: %s%s"
            .formatted(stage.stage().name(), verdict.burr().plain(), pointing(verdict)));
  }

  private static String pointing(BurrVerdict verdict) {
    String kinds =
        verdict.saying(BurrClue.Says.BURR).stream()
            .map(clue -> clue.kind().plain())
            .collect(Collectors.joining(", "));
    return kinds.isEmpty() ? "" : " (for it: " + kinds + ")";
  }

  private void print(CheckTrust check) {
    if (check.saidNone() + check.unclear() > 0) {
      out.printf(
          Locale.ROOT,
          "  %s said 'none' where that could be checked: %s; a burr was there all the same: %s;"
              + " only the force fell later, from a hidden burr or a finer edge: %s%n",
          check.method().plain(),
          check.saidNone(),
          check.missed(),
          check.unclear());
    }
  }
}
