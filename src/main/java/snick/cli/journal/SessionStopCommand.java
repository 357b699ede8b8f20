package snick.cli.journal;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;
import snick.cli.option.DataDirectory;
import snick.cli.option.OpenedJournal;
import snick.cli.option.SessionArgument;
import snick.cli.terminal.ExitCode;
import snick.journal.Session;

/** Ends a session. */
@Command(
    name = "stop",
    mixinStandardHelpOptions = true,
    description =
        "End the open session. What stands in it can still be corrected, and it can be reopened.",
    footerHeading = "%nExamples:%n",
    footer = {"  snick session stop", "  snick session stop evening"})
final class SessionStopCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private SessionArgument session;
  @Mixin private DataDirectory data;

  @Override
  public Integer call() {
    Session closed;
    try (OpenedJournal journal = OpenedJournal.of(data)) {
      closed = journal.writer().close(session.toWrite(journal.reader()), OpenedJournal.now());
    }
    spec.commandLine().getOut().println("closed " + JournalText.session(closed));
    return ExitCode.OK;
  }
}
