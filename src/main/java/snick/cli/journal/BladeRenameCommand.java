package snick.cli.journal;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import snick.cli.option.DataDirectory;
import snick.cli.option.OpenedJournal;
import snick.cli.terminal.ExitCode;

/** Gives a blade another label. */
@Command(
    name = "rename",
    mixinStandardHelpOptions = true,
    description = "Give a blade another label; the old one stays in the record.",
    footerHeading = "%nExamples:%n",
    footer = {"  snick blade rename kitchn-1 kitchen-1 --why 'slip of the finger'"})
final class BladeRenameCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "LABEL", description = "Its label.")
  private String before;

  @Parameters(index = "1", paramLabel = "NEW", description = "Its new label.")
  private String after;

  @Mixin private WhyChoice why;
  @Mixin private DataDirectory data;

  @Override
  public Integer call() {
    try (OpenedJournal journal = OpenedJournal.of(data)) {
      String label = journal.reader().journal().bladeMeant(before).label();
      JournalText.print(spec, journal.store().mending().renameBlade(label, after, why.text()));
    }
    return ExitCode.OK;
  }
}
