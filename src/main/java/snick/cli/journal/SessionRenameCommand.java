package snick.cli.journal;

import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import snick.cli.option.NotingCommand;
import snick.cli.option.OpenedJournal;

/** Gives a session another name. */
@Command(
    name = "rename",
    description = "Give a session another name; the old one stays in the record.",
    footer = {
      "  snick session rename 12 evening",
      "  snick session rename evning evening --why 'slip of the finger'"
    })
final class SessionRenameCommand extends NotingCommand {
  @Parameters(
      index = "0",
      paramLabel = "SESSION",
      description = "Its name, number or the beginning of its name.")
  private String before;

  @Parameters(index = "1", paramLabel = "NEW", description = "Its new name.")
  private String after;

  @Mixin private WhyChoice why;

  @Override
  protected void note(OpenedJournal journal) {
    String name = journal.reader().journal().sessionMeant(before);
    println(
        JournalText.amendment(journal.store().mending().renameSession(name, after, why.text())));
  }
}
