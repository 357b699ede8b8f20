package snick.cli.journal;

import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import snick.cli.option.NotingCommand;
import snick.cli.option.OpenedJournal;
import snick.cli.option.SessionArgument;

/** Opens a session again. */
@Command(
    name = "reopen",
    description = "Open a session again that was ended: cuts land in it as before.",
    footer = {
      "  snick session reopen            the latest",
      "  snick session reopen evening --why 'ended by a stray tap'"
    })
final class SessionReopenCommand extends NotingCommand {
  @Mixin private SessionArgument session;
  @Mixin private WhyChoice why;

  @Override
  protected void note(OpenedJournal journal) {
    String name = session.toRead(journal.reader());
    println(JournalText.amendment(journal.store().mending().reopen(name, why.text())));
  }
}
