package snick.cli.journal;

import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import snick.cli.option.NotingCommand;
import snick.cli.option.OpenedJournal;

/** Gives a blade another label. */
@Command(
    name = "rename",
    description = "Give a blade another label; the old one stays in the record.",
    footer = {"  snick blade rename kitchn-1 kitchen-1 --why 'slip of the finger'"})
final class BladeRenameCommand extends NotingCommand {
  @Parameters(index = "0", paramLabel = "LABEL", description = "Its label.")
  private String before;

  @Parameters(index = "1", paramLabel = "NEW", description = "Its new label.")
  private String after;

  @Mixin private WhyChoice why;

  @Override
  protected void note(OpenedJournal journal) {
    String label = journal.reader().journal().bladeMeant(before).label();
    println(JournalText.amendment(journal.store().mending().renameBlade(label, after, why.text())));
  }
}
