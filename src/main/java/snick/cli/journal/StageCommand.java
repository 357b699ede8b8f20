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
import snick.cli.option.OpenedJournal;
import snick.cli.option.OpenedStore;
import snick.cli.option.SessionChoice;
import snick.cli.terminal.ExitCode;
import snick.store.SessionEvidence;
import snick.store.StoreReader;

/** Begins the next stage, or says which one runs. */
@Command(
    name = "stage",
    mixinStandardHelpOptions = true,
    description = {
      "Begin the next stage of the running session: what the edge is after the last work on it.",
      "Without a name: say which stage runs, where the next cut goes, and what to do next."
    },
    footerHeading = "%nExamples:%n",
    footer = {"  snick stage deburred", "  snick stage after the strop", "  snick stage"})
public final class StageCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(arity = "0..*", paramLabel = "NAME", description = "Free, new in the session.")
  private List<String> name = List.of();

  @Mixin private SessionChoice session;
  @Mixin private DataDirectory data;

  @Override
  public Integer call() {
    return name.isEmpty() ? show() : begin(String.join(" ", name));
  }

  private int show() {
    try (StoreReader store = OpenedStore.toRead(data)) {
      tell(store, session.toRead(store));
    }
    return ExitCode.OK;
  }

  private int begin(String stage) {
    try (OpenedJournal journal = OpenedJournal.of(data)) {
      String running = journal.log(session).session().name();
      journal.writer().begin(running, stage);
      tell(journal.reader(), running);
    }
    return ExitCode.OK;
  }

  private void tell(StoreReader store, String sessionName) {
    PrintWriter out = spec.commandLine().getOut();
    Advice.print(out, data, SessionEvidence.read(store, sessionName), store);
  }
}
