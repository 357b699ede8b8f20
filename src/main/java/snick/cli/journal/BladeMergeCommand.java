package snick.cli.journal;

import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import snick.cli.option.NotingCommand;
import snick.cli.option.OpenedJournal;

/** Makes two blades one. */
@Command(
    name = "merge",
    description =
        "Make two labels one blade: all sessions of LABEL become sessions of INTO. What was measured of INTO stands; LABEL goes on meaning INTO.",
    footer = {"  snick blade merge kitchn-1 kitchen-1 --why 'the same knife'"})
final class BladeMergeCommand extends NotingCommand {
  @Parameters(index = "0", paramLabel = "LABEL", description = "The label to give up.")
  private String before;

  @Parameters(index = "1", paramLabel = "INTO", description = "The blade that stays.")
  private String after;

  @Mixin private WhyChoice why;

  @Override
  protected void note(OpenedJournal journal) {
    String label = journal.reader().journal().bladeMeant(before).label();
    String into = journal.reader().journal().bladeMeant(after).label();
    println(JournalText.amendment(journal.store().mending().mergeBlade(label, into, why.text())));
  }
}
