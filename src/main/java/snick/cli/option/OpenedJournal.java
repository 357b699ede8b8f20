package snick.cli.option;

import java.time.Clock;
import java.time.Instant;
import snick.cli.terminal.Refusal;
import snick.journal.SessionLog;
import snick.store.JournalWriter;
import snick.store.SessionEvidence;
import snick.store.Store;
import snick.store.StoreReader;
import snick.store.record.CutSummary;

/** The journal, opened for a command that notes something. */
public final class OpenedJournal implements AutoCloseable {
  private final Store store;
  private final StoreReader reader;

  private OpenedJournal(Store store, StoreReader reader) {
    this.store = store;
    this.reader = reader;
  }

  /** Opens it; the store is made if needed. */
  public static OpenedJournal of(DataDirectory data) {
    Store store = OpenedStore.toWrite(data);
    try {
      return new OpenedJournal(store, OpenedStore.toRead(data));
    } catch (RuntimeException e) {
      store.close();
      throw e;
    }
  }

  /** Reads what was committed; closed with the journal. */
  public StoreReader reader() {
    return reader;
  }

  /** The store that holds the journal; closed with it. */
  public Store store() {
    return store;
  }

  /** Writes notes; each is committed before it returns. */
  public JournalWriter writer() {
    return store.journal();
  }

  /** The cut of {@code id}. */
  public CutSummary cut(long id) {
    return reader
        .summary(id)
        .orElseThrow(() -> Refusal.badInput("cut " + id + " is not in the store: snick cuts list"));
  }

  /** The session to write to, with what was noted so far. */
  public SessionLog log(SessionChoice choice) {
    return SessionEvidence.read(reader, choice.toWrite(reader)).log();
  }

  /** The time of a note that is made now. */
  public static Instant now() {
    return Clock.systemUTC().instant();
  }

  @Override
  public void close() {
    reader.close();
    store.close();
  }
}
