package snick.cli.option;

/** A command that notes something in the journal. */
public abstract class NotingCommand extends DataCommand implements Runnable {
  /** Does what was asked for; {@code journal} is closed afterwards. */
  protected abstract void note(OpenedJournal journal);

  @Override
  public final void run() {
    try (OpenedJournal journal = OpenedJournal.of(data)) {
      note(journal);
    }
  }
}
