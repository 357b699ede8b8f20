package snick.cli.verdict;

import java.io.PrintWriter;
import java.util.List;
import java.util.Map;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.option.JudgeChoice;
import snick.cli.option.ReadingCommand;
import snick.cli.option.SessionChoice;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.Refusal;
import snick.cli.terminal.Said;
import snick.cli.terminal.Table;
import snick.json.Json;
import snick.store.SessionEvidence;
import snick.store.StoreReader;
import snick.verdict.burr.BurrClue;
import snick.verdict.burr.BurrEvidence;
import snick.verdict.burr.BurrVerdict;
import snick.verdict.burr.StageEvidence;
import snick.verdict.comparison.Judge;

/** Whether a burr is left. */
@Command(
    name = "burr",
    description = {
      "Show the evidence for a remaining burr in a stage: likely, possible or not indicated, "
          + "with reasons and the next cheapest check. Common practice, no source."
    },
    footer = {"  snick burr", "  snick burr deburred --session evening", "  snick burr --json"})
public final class BurrCommand extends ReadingCommand {
  /** Keeps the table within 80 columns. */
  private static final int WHAT_LETTERS = 57;

  @Parameters(
      arity = "0..*",
      paramLabel = "STAGE",
      description = "The stage (default: the last one).")
  private List<String> stage = List.of();

  @Mixin private SessionChoice session;
  @Mixin private JudgeChoice judge;

  @Option(names = "--json", description = "As one JSON object.")
  private boolean json;

  @Override
  protected void read(StoreReader store) {
    SessionEvidence evidence = SessionEvidence.read(store, session.toRead(store));
    StageEvidence weighed = weighed(evidence);
    Judge with = judge.judge(data.settings(), store, evidence);
    BurrVerdict verdict = new BurrEvidence(with).weigh(weighed);
    tell(json, () -> object(weighed, verdict), () -> print(out(), weighed, verdict));
  }

  private StageEvidence weighed(SessionEvidence evidence) {
    return stage.isEmpty()
        ? evidence
            .last()
            .orElseThrow(
                () ->
                    Refusal.badInput(
                        "session '%s' has no stage yet: snick stage 'as found'",
                        evidence.log().session().name()))
        : evidence.stage(String.join(" ", stage));
  }

  private static void print(PrintWriter out, StageEvidence stage, BurrVerdict verdict) {
    out.println(
        PlainText.inert("Burr in '" + stage.stage().name() + "': " + verdict.burr().plain()));
    out.println("  " + Said.of(verdict.rule().evidence()) + ".");
    out.println(
        "  Rule: %s (%s)."
            .formatted(Said.of(verdict.rule().rule()), Said.of(verdict.rule().source())));
    out.println();
    Table table = new Table("EVIDENCE", "SAYS", "WHAT").broken(2, WHAT_LETTERS);
    verdict
        .clues()
        .forEach(
            clue ->
                table.row(
                    clue.kind().plain(), says(clue.says()), Said.raw(clue.reason().evidence())));
    table.print(out);
    out.println();
    out.println("Next cheapest check: " + Said.of(verdict.nextCheck()));
  }

  private static String says(BurrClue.Says says) {
    return switch (says) {
      case BURR -> "burr";
      case NO_BURR -> "no burr";
      case NOTHING -> "-";
    };
  }

  private static Map<String, Object> object(StageEvidence stage, BurrVerdict verdict) {
    return Json.object(
        "stage", stage.stage().name(),
        "burr", verdict.burr().word(),
        "rule", Said.raw(verdict.rule().text()),
        "clues", verdict.clues().stream().map(BurrCommand::object).toList(),
        "next_check", Said.raw(verdict.nextCheck()));
  }

  private static Map<String, Object> object(BurrClue clue) {
    return Json.object(
        "kind", clue.kind().word(),
        "says", clue.says().word(),
        "reason", Said.raw(clue.reason().text()));
  }
}
