package snick.cli.lot;

import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.journal.JournalText;
import snick.cli.option.NotingCommand;
import snick.cli.option.OpenedJournal;
import snick.journal.FilamentLot;

/** Corrects what is noted of a lot. */
@Command(
    name = "correct",
    description = "Correct what is noted of a lot; the old entry is kept.",
    footerHeading = "%nExample (invented):%n",
    footer = "  snick lot correct spool-b --diameter 0.26 --why 'measured it'")
final class LotCorrectCommand extends NotingCommand {
  @Parameters(paramLabel = "LOT", description = "Its name.")
  private String name;

  @Mixin private LotFields fields;

  @Option(names = "--why", paramLabel = "TEXT", required = true, description = "Reason.")
  private String why;

  @Override
  protected void note(OpenedJournal journal) {
    FilamentLot lot = fields.over(journal.reader().journal().lotMeant(name));
    journal.writer().correct(lot, why);
    println("now " + JournalText.lot(lot));
  }
}
