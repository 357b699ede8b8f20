package snick.cli.journal;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import snick.cli.option.DataDirectory;
import snick.cli.option.OpenedJournal;
import snick.cli.terminal.ExitCode;
import snick.journal.Session;
import snick.store.SessionEvidence;

/** Corrects what is noted of a session. */
@Command(
    name = "correct",
    mixinStandardHelpOptions = true,
    description = "Correct what is noted of a session; the old entry is kept.",
    footerHeading = "%nExample (invented):%n",
    footer = "  snick session correct evening --lot spool-b --why 'the spool was changed'")
final class SessionCorrectCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "NAME", description = "Its name.")
  private String name;

  @Mixin private SessionFields fields;

  @Option(names = "--why", paramLabel = "TEXT", required = true, description = "Reason.")
  private String why;

  @Mixin private DataDirectory data;

  @Override
  public Integer call() {
    Session session;
    try (OpenedJournal journal = OpenedJournal.of(data)) {
      Session before = SessionEvidence.read(journal.reader(), name).log().session();
      session = fields.over(before, journal.reader());
      journal.writer().correct(session, why);
    }
    spec.commandLine().getOut().println("now " + JournalText.session(session));
    return ExitCode.OK;
  }
}
