package snick.cli.journal;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;
import snick.cli.option.DataDirectory;
import snick.cli.option.OpenedJournal;
import snick.cli.option.SessionArgument;
import snick.cli.terminal.ExitCode;

/** Opens a session again. */
@Command(
    name = "reopen",
    mixinStandardHelpOptions = true,
    description = "Open a session again that was ended: cuts land in it as before.",
    footerHeading = "%nExamples:%n",
    footer = {
      "  snick session reopen            the latest",
      "  snick session reopen evening --why 'ended by a stray tap'"
    })
final class SessionReopenCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Mixin private SessionArgument session;
  @Mixin private WhyChoice why;
  @Mixin private DataDirectory data;

  @Override
  public Integer call() {
    try (OpenedJournal journal = OpenedJournal.of(data)) {
      String name = session.toRead(journal.reader());
      JournalText.print(spec, journal.store().mending().reopen(name, why.text()));
    }
    return ExitCode.OK;
  }
}
