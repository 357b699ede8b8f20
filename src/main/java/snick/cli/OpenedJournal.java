package snick.cli;

import java.time.Clock;
import java.time.Instant;
import snick.journal.SessionLog;
import snick.store.JournalWriter;
import snick.store.SessionEvidence;
import snick.store.Store;
import snick.store.StoreReader;

/** The journal, opened for a command that notes something. */
final class OpenedJournal implements AutoCloseable {
  private final Store store;
  private final StoreReader reader;

  private OpenedJournal(Store store, StoreReader reader) {
    this.store = store;
    this.reader = reader;
  }

  /** Opens it; the store is made if needed. */
  static OpenedJournal of(DataDirectory data) {
    Store store = OpenedStore.toWrite(data);
    try {
      return new OpenedJournal(store, OpenedStore.toRead(data));
    } catch (RuntimeException e) {
      store.close();
      throw e;
    }
  }

  StoreReader reader() {
    return reader;
  }

  Store store() {
    return store;
  }

  JournalWriter writer() {
    return store.journal();
  }

  /** The session to write to, with what was noted so far. */
  SessionLog log(SessionChoice choice) {
    return SessionEvidence.read(reader, choice.toWrite(reader)).log();
  }

  static Instant now() {
    return Clock.systemUTC().instant();
  }

  @Override
  public void close() {
    reader.close();
    store.close();
  }
}
