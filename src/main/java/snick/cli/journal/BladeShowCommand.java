package snick.cli.journal;

import java.io.PrintWriter;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import snick.cli.option.DataDirectory;
import snick.cli.option.OpenedStore;
import snick.cli.terminal.ExitCode;
import snick.journal.Blade;
import snick.journal.Entry;
import snick.journal.Session;
import snick.store.JournalReader;
import snick.store.StoreReader;

/** Shows one blade. */
@Command(
    name = "show",
    mixinStandardHelpOptions = true,
    description = "Show a blade: every entry ever written about it, and its sessions.",
    footerHeading = "%nExample:%n",
    footer = "  snick blade show kitchen-1")
final class BladeShowCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "LABEL", description = "Its label.")
  private String label;

  @Mixin private DataDirectory data;

  @Override
  public Integer call() {
    try (StoreReader store = OpenedStore.toRead(data)) {
      print(store.journal(), spec.commandLine().getOut());
    }
    return ExitCode.OK;
  }

  private void print(JournalReader journal, PrintWriter out) {
    Blade blade = journal.bladeMeant(label);
    out.println(JournalText.blade(blade));
    List<Entry<Blade>> history = journal.bladeHistory(blade.label());
    if (history.size() > 1) {
      out.println("entries, oldest first:");
      history.forEach(
          entry ->
              out.println("  " + JournalText.head(entry) + JournalText.blade(entry.content())));
    }
    journal
        .amendmentsOfBlade(blade.label())
        .forEach(entry -> out.println("  " + JournalText.amendment(entry)));
    List<Session> sessions = journal.sessionsOfBlade(blade.label());
    out.println(sessions.isEmpty() ? "no sessions yet" : "sessions, oldest first:");
    sessions.forEach(session -> out.println("  " + JournalText.session(session)));
  }
}
