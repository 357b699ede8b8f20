package snick.cli.option;

import java.nio.file.Files;
import java.time.Clock;
import snick.cli.terminal.Refusal;
import snick.store.Store;
import snick.store.StoreException;
import snick.store.StoreReader;

/** The store, opened for a command; what stands in the way is said plainly. */
public final class OpenedStore {
  private OpenedStore() {}

  /** To read. */
  public static StoreReader toRead(DataDirectory data) {
    if (!Files.isDirectory(data.path())) {
      throw Refusal.unavailable(
          "no store in " + data.path() + " yet; record something: snick run PORT, or snick demo");
    }
    try {
      return StoreReader.open(data.path());
    } catch (StoreException e) {
      throw Refusal.unavailable(e.getMessage());
    }
  }

  /** To write; made if needed. */
  public static Store toWrite(DataDirectory data) {
    try {
      return Store.open(data.path(), Clock.systemUTC());
    } catch (StoreException e) {
      throw Refusal.unavailable(e.getMessage());
    }
  }
}
