package snick.cli.lot;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import snick.cli.journal.JournalText;
import snick.cli.option.DataDirectory;
import snick.cli.option.OpenedJournal;
import snick.cli.terminal.ExitCode;
import snick.journal.FilamentLot;

/** Corrects what is noted of a lot. */
@Command(
    name = "correct",
    mixinStandardHelpOptions = true,
    description = "Correct what is noted of a lot; the old entry is kept.",
    footerHeading = "%nExample (invented):%n",
    footer = "  snick lot correct spool-b --diameter 0.26 --why 'measured it'")
final class LotCorrectCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "LOT", description = "Its name.")
  private String name;

  @Mixin private LotFields fields;

  @Option(names = "--why", paramLabel = "TEXT", required = true, description = "Reason.")
  private String why;

  @Mixin private DataDirectory data;

  @Override
  public Integer call() {
    FilamentLot lot;
    try (OpenedJournal journal = OpenedJournal.of(data)) {
      lot = fields.over(journal.reader().journal().lotMeant(name));
      journal.writer().correct(lot, why);
    }
    spec.commandLine().getOut().println("now " + JournalText.lot(lot));
    return ExitCode.OK;
  }
}
