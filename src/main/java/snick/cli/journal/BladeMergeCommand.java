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

/** Makes two blades one. */
@Command(
    name = "merge",
    mixinStandardHelpOptions = true,
    description =
        "Make two labels one blade: all sessions of LABEL become sessions of INTO. What was measured of INTO stands; LABEL goes on meaning INTO.",
    footerHeading = "%nExamples:%n",
    footer = {"  snick blade merge kitchn-1 kitchen-1 --why 'the same knife'"})
final class BladeMergeCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "LABEL", description = "The label to give up.")
  private String before;

  @Parameters(index = "1", paramLabel = "INTO", description = "The blade that stays.")
  private String after;

  @Mixin private WhyChoice why;
  @Mixin private DataDirectory data;

  @Override
  public Integer call() {
    try (OpenedJournal journal = OpenedJournal.of(data)) {
      String label = journal.reader().journal().bladeMeant(before).label();
      String into = journal.reader().journal().bladeMeant(after).label();
      JournalText.print(spec, journal.store().mending().mergeBlade(label, into, why.text()));
    }
    return ExitCode.OK;
  }
}
