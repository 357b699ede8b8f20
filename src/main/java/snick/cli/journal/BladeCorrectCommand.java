package snick.cli.journal;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import snick.cli.option.DataDirectory;
import snick.cli.option.OpenedJournal;
import snick.cli.terminal.ExitCode;
import snick.journal.Blade;

/** Corrects what is noted of a blade. */
@Command(
    name = "correct",
    mixinStandardHelpOptions = true,
    description = "Correct what is noted of a blade; the old entry is kept.",
    footerHeading = "%nExample (invented):%n",
    footer = "  snick blade correct kitchen-1 --angle 32 --why 'measured it again'")
final class BladeCorrectCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "LABEL", description = "Its label.")
  private String label;

  @Mixin private BladeFields fields;

  @Option(names = "--why", paramLabel = "TEXT", required = true, description = "Reason.")
  private String why;

  @Mixin private DataDirectory data;

  @Override
  public Integer call() {
    Blade blade;
    try (OpenedJournal journal = OpenedJournal.of(data)) {
      blade = fields.over(journal.reader().journal().bladeMeant(label));
      journal.writer().correct(blade, why);
    }
    spec.commandLine().getOut().println("now " + JournalText.blade(blade));
    return ExitCode.OK;
  }
}
