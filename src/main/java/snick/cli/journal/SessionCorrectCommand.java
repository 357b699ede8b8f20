package snick.cli.journal;

import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.option.NotingCommand;
import snick.cli.option.OpenedJournal;
import snick.journal.Session;
import snick.store.JournalReader;

/** Corrects what is noted of a session. */
@Command(
    name = "correct",
    description = "Correct what is noted of a session; the old entry is kept.",
    footerHeading = "%nExamples (invented):%n",
    footer = {
      "  snick session correct evening --lot spool-b --why 'the spool was changed'",
      "  snick session correct evening --blade kitchen-1 --why 'the other knife'"
    })
final class SessionCorrectCommand extends NotingCommand {
  @Parameters(
      paramLabel = "SESSION",
      description = "Its name, number or the beginning of its name.")
  private String name;

  @Option(names = "--blade", paramLabel = "LABEL", description = "The blade it was made with.")
  private Optional<String> blade = Optional.empty();

  @Mixin private SessionFields fields;

  @Option(names = "--why", paramLabel = "TEXT", required = true, description = "Reason.")
  private String why;

  @Override
  protected void note(OpenedJournal journal) {
    JournalReader reader = journal.reader().journal();
    Session noted = reader.session(reader.sessionMeant(name)).orElseThrow();
    Session before =
        blade.map(typed -> noted.withBlade(reader.bladeMeant(typed).label())).orElse(noted);
    Session session = fields.over(before, journal.reader());
    journal.writer().correct(session, why);
    println("now " + JournalText.session(session));
  }
}
