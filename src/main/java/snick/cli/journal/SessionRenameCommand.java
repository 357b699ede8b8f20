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

/** Gives a session another name. */
@Command(
    name = "rename",
    mixinStandardHelpOptions = true,
    description = "Give a session another name; the old one stays in the record.",
    footerHeading = "%nExamples:%n",
    footer = {
      "  snick session rename 12 evening",
      "  snick session rename evning evening --why 'slip of the finger'"
    })
final class SessionRenameCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(
      index = "0",
      paramLabel = "SESSION",
      description = "Its name, number or the beginning of its name.")
  private String before;

  @Parameters(index = "1", paramLabel = "NEW", description = "Its new name.")
  private String after;

  @Mixin private WhyChoice why;
  @Mixin private DataDirectory data;

  @Override
  public Integer call() {
    try (OpenedJournal journal = OpenedJournal.of(data)) {
      String name = journal.reader().journal().sessionMeant(before);
      JournalText.print(spec, journal.store().mending().renameSession(name, after, why.text()));
    }
    return ExitCode.OK;
  }
}
