package snick.cli.cuts;

import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.journal.WhyChoice;
import snick.cli.option.NotingCommand;
import snick.cli.option.OpenedJournal;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.Refusal;
import snick.store.JournalReader;
import snick.store.record.CutPlace;

/** Moves cuts to another stage. */
@Command(
    name = "move",
    description =
        "Move cuts to another stage of their session, or of another session; where they were stays in the record.",
    footer = {
      "  snick cuts move 12 13 --stage deburred --why 'the stage was begun too late'",
      "  snick cuts move 12 --session evening --stage 'as found'"
    })
final class CutsMoveCommand extends NotingCommand {
  @Parameters(arity = "1..*", split = ",", paramLabel = "ID", description = "Ids of the cuts.")
  private List<Long> ids;

  @Option(
      names = "--stage",
      paramLabel = "STAGE",
      required = true,
      description = "Name or number of the stage, or the beginning of its name.")
  private String stage;

  @Option(
      names = "--session",
      paramLabel = "SESSION",
      description = "The session to move them to (default: the one that they are in).")
  private Optional<String> session = Optional.empty();

  @Mixin private WhyChoice why;

  @Override
  protected void note(OpenedJournal journal) {
    ids.forEach(id -> move(journal, id));
  }

  private void move(OpenedJournal journal, long id) {
    JournalReader reader = journal.reader().journal();
    String name = session.map(reader::sessionMeant).orElseGet(() -> sessionOf(journal, id));
    String now = journal.store().mending().moveCut(id, name, stage, why.text()).content().stage();
    println(PlainText.inert("cut " + id + " is in stage '" + now + "' of session '" + name + "'"));
  }

  private static String sessionOf(OpenedJournal journal, long id) {
    return journal
        .cut(id)
        .place()
        .map(CutPlace::session)
        .orElseThrow(
            () -> Refusal.badInput("cut " + id + " is in no session: name one: --session SESSION"));
  }
}
