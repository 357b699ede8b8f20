package snick.cli.cuts;

import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.option.DataCommand;
import snick.cli.option.OpenedJournal;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.Refusal;
import snick.journal.SetAside;
import snick.store.record.CutPlace;

/** Sets a cut aside. */
@Command(
    name = "set-aside",
    description = "Leave a cut out of figures and verdicts, for a reason. It is never deleted.",
    footer = {
      "  snick cuts set-aside 12 --reason 'the clamp slipped'",
      "  snick cuts set-aside 12 --take-back --reason 'it was cut 13'",
    })
final class CutsSetAsideCommand extends DataCommand implements Runnable {
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

  @Override
  public void run() {
    try (OpenedJournal journal = OpenedJournal.of(data)) {
      String session = session(journal).session();
      journal.writer().setAside(session, new SetAside(OpenedJournal.now(), id, reason, takeBack));
    }
    println(
        PlainText.inert(
            "cut " + id + (takeBack ? " counts again: " : " is set aside: ") + reason.strip()));
  }

  private CutPlace session(OpenedJournal journal) {
    return journal
        .cut(id)
        .place()
        .orElseThrow(
            () ->
                Refusal.badInput(
                    "cut %s is in no session, so it counts in no verdict; put it in one first:"
                        + " snick place --cut %s",
                    id, id));
  }
}
