package snick.cli.cuts;

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
import snick.cli.terminal.PlainText;
import snick.cli.terminal.Refusal;
import snick.journal.SetAside;
import snick.store.record.CutPlace;
import snick.store.record.CutSummary;

/** Sets a cut aside. */
@Command(
    name = "set-aside",
    mixinStandardHelpOptions = true,
    description = "Leave a cut out of figures and verdicts, for a reason. It is never deleted.",
    footerHeading = "%nExamples:%n",
    footer = {
      "  snick cuts set-aside 12 --reason 'the clamp slipped'",
      "  snick cuts set-aside 12 --take-back --reason 'it was cut 13'",
    })
final class CutsSetAsideCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "ID", description = "Id of the cut.")
  private long id;

  @Option(
      names = "--reason",
      paramLabel = "TEXT",
      required = true,
      description = "What was wrong, seen at the rig.")
  private String reason;

  @Option(names = "--take-back", description = "Let it count again; both acts stay on record.")
  private boolean takeBack;

  @Mixin private DataDirectory data;

  @Override
  public Integer call() {
    try (OpenedJournal journal = OpenedJournal.of(data)) {
      String session = session(journal).session();
      journal.writer().setAside(session, new SetAside(OpenedJournal.now(), id, reason, takeBack));
    }
    spec.commandLine()
        .getOut()
        .println(
            PlainText.inert(
                "cut " + id + (takeBack ? " counts again: " : " is set aside: ") + reason.strip()));
    return ExitCode.OK;
  }

  private CutPlace session(OpenedJournal journal) {
    CutSummary cut =
        journal
            .reader()
            .summary(id)
            .orElseThrow(
                () -> Refusal.badInput("cut " + id + " is not in the store: snick cuts list"));
    return cut.place()
        .orElseThrow(
            () ->
                Refusal.badInput(
                    "cut "
                        + id
                        + " is in no session, so it counts in no verdict; put it in one first:"
                        + " snick place --cut "
                        + id));
  }
}
