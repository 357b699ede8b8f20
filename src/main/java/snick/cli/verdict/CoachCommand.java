package snick.cli.verdict;

import java.util.Map;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import snick.cli.journal.Advice;
import snick.cli.option.JudgeChoice;
import snick.cli.option.ReadingCommand;
import snick.cli.option.SessionChoice;
import snick.cli.terminal.Figures;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.Said;
import snick.journal.Stage;
import snick.json.Json;
import snick.store.SessionEvidence;
import snick.store.StoreReader;
import snick.verdict.comparison.Judge;

/** What to do next, in one line. */
@Command(
    name = "coach",
    description = "Say in one line what to do next in the open session.",
    footer = {"  snick coach", "  snick coach --margin 6", "  snick coach --json"})
public final class CoachCommand extends ReadingCommand {
  @Mixin private SessionChoice session;
  @Mixin private JudgeChoice judge;

  @Option(names = "--json", description = "As one JSON object.")
  private boolean json;

  @Override
  protected void read(StoreReader store) {
    SessionEvidence evidence = SessionEvidence.read(store, session.toRead(store));
    Judge with = judge.judge(data.settings(), store, evidence);
    String advice = Advice.line(evidence, with);
    tell(
        json,
        () -> object(evidence, with, advice),
        () -> {
          println(PlainText.inert(data.in(advice)));
          JudgeChoice.marginLine(with).map(PlainText::inert).ifPresent(out()::println);
        });
  }

  private static Map<String, Object> object(SessionEvidence evidence, Judge judge, String advice) {
    return Json.object(
        "session", evidence.log().session().name(),
        "stage", evidence.log().runningStage().map(Stage::name).orElse(null),
        "advice", advice,
        "margin_gf", Figures.orNull(judge.marginGf()),
        "margin_from", judge.marginFrom().map(Said::raw).orElse(""));
  }
}
