package snick.cli.journal;

import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import snick.cli.option.NotingCommand;
import snick.cli.option.OpenedJournal;
import snick.cli.option.SessionArgument;
import snick.journal.Session;

/** Ends a session. */
@Command(
    name = "stop",
    description =
        "End the open session. What stands in it can still be corrected, and it can be reopened.",
    footer = {"  snick session stop", "  snick session stop evening"})
final class SessionStopCommand extends NotingCommand {
  @Mixin private SessionArgument session;

  @Override
  protected void note(OpenedJournal journal) {
    Session closed = journal.writer().close(session.toWrite(journal.reader()), OpenedJournal.now());
    println("closed " + JournalText.session(closed));
  }
}
