package snick.cli.journal;

import java.io.PrintWriter;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.option.DataCommand;
import snick.cli.option.OpenedJournal;
import snick.cli.option.OpenedStore;
import snick.cli.option.SessionChoice;
import snick.cli.terminal.ExitCode;
import snick.cli.terminal.Refusal;
import snick.store.Mending;
import snick.store.SessionEvidence;
import snick.store.StoreReader;

/** Begins the next stage, or says which one runs. */
@Command(
    name = "stage",
    description = {
      "Begin the next stage of the open session: what the edge is after the last work on it.",
      "Without a name: say which stage is current, where the next cut goes, and what to do next."
    },
    footer = {
      "  snick stage deburred",
      "  snick stage after the strop",
      "  snick stage",
      "  snick stage deburred --rename debured     that stage gets this name",
      "  snick stage deburred --merge debured      what is in that one belongs here"
    })
public final class StageCommand extends DataCommand implements Callable<Integer> {
  @Parameters(
      arity = "0..*",
      paramLabel = "NAME",
      description = "Any name not used yet in this session.")
  private List<String> name = List.of();

  @Option(names = "--new", description = "Begin it even if its name is nearly an earlier one.")
  private boolean isNew;

  @Option(
      names = "--rename",
      paramLabel = "STAGE",
      description = "Give this stage the name instead of beginning one.")
  private Optional<String> renamed = Optional.empty();

  @Option(
      names = "--merge",
      paramLabel = "STAGE",
      description = "Put what is in this stage into the named one, which is there already.")
  private Optional<String> merged = Optional.empty();

  @Mixin private WhyChoice why;

  @Mixin private SessionChoice session;

  @Override
  public Integer call() {
    String said = String.join(" ", name);
    if (renamed.isPresent() || merged.isPresent()) {
      return mend(said);
    }
    return said.isEmpty() ? show() : begin(said);
  }

  private int show() {
    try (StoreReader store = OpenedStore.toRead(data)) {
      tell(store, session.toRead(store));
    }
    return ExitCode.OK;
  }

  private int mend(String stage) {
    if (stage.isEmpty() || (renamed.isPresent() && merged.isPresent())) {
      throw Refusal.usage("one of --rename STAGE and --merge STAGE goes with the NAME of a stage");
    }
    try (OpenedJournal journal = OpenedJournal.of(data)) {
      String of = session.toRead(journal.reader());
      Mending mending = journal.store().mending();
      println(
          JournalText.amendment(
              renamed
                  .map(old -> mending.renameStage(of, old, stage, why.text()))
                  .orElseGet(() -> mending.mergeStage(of, merged.get(), stage, why.text()))));
    }
    return ExitCode.OK;
  }

  private int begin(String stage) {
    try (OpenedJournal journal = OpenedJournal.of(data)) {
      String running = journal.log(session).session().name();
      journal.writer().begin(running, stage, isNew);
      tell(journal.reader(), running);
    }
    return ExitCode.OK;
  }

  private void tell(StoreReader store, String sessionName) {
    PrintWriter out = out();
    Advice.print(out, data, SessionEvidence.read(store, sessionName), store);
  }
}
