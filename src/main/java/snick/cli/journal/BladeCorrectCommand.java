package snick.cli.journal;

import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.option.NotingCommand;
import snick.cli.option.OpenedJournal;
import snick.journal.Blade;

/** Corrects what is noted of a blade. */
@Command(
    name = "correct",
    description = "Correct what is noted of a blade; the old entry is kept.",
    footerHeading = "%nExample (invented):%n",
    footer = "  snick blade correct kitchen-1 --angle 32 --why 'measured it again'")
final class BladeCorrectCommand extends NotingCommand {
  @Parameters(paramLabel = "LABEL", description = "Its label.")
  private String label;

  @Mixin private BladeFields fields;

  @Option(names = "--why", paramLabel = "TEXT", required = true, description = "Reason.")
  private String why;

  @Override
  protected void note(OpenedJournal journal) {
    Blade blade = fields.over(journal.reader().journal().bladeMeant(label));
    journal.writer().correct(blade, why);
    println("now " + JournalText.blade(blade));
  }
}
