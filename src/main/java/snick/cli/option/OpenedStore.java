package snick.cli.option;

import java.io.IOException;
import java.nio.file.AccessMode;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.function.Consumer;
import snick.cli.terminal.FileReason;
import snick.cli.terminal.Refusal;
import snick.store.Store;
import snick.store.StoreReader;
import snick.store.database.StoreException;

/** The store, opened for a command; what stands in the way is said plainly. */
public final class OpenedStore {
  /** What to do in a store without cuts. */
  public static final String HOW_TO_RECORD =
      "record from a rig: snick run PORT (snick ports lists them), or look at invented cuts in a"
          + " store of their own: snick demo";

  /** Name of the store's file in its directory. */
  public static final String FILE = "snick.db";

  private OpenedStore() {}

  /** To read. */
  public static StoreReader toRead(DataDirectory data) {
    requireReadable(data);
    try {
      return StoreReader.open(data.path());
    } catch (StoreException e) {
      throw Refusal.unavailable(e.getMessage());
    }
  }

  /**
   * Says what is the matter if the store is not there or may not be read. By access alone: closing
   * the file once more would take SQLite's locks of it away.
   */
  public static void requireReadable(DataDirectory data) {
    Path directory = data.path();
    Path file = directory.resolve(FILE);
    try {
      file.getFileSystem().provider().checkAccess(file, AccessMode.READ);
    } catch (NoSuchFileException e) {
      throw Refusal.unavailable("no store in " + directory + " yet; " + HOW_TO_RECORD);
    } catch (IOException e) {
      throw Refusal.unavailable(
          "the store %s cannot be read: %s; make it readable, or name another directory:"
              + " --data DIR",
          file, FileReason.of(e));
    }
  }

  /** To write once, by {@code adding}; made if needed. */
  public static void save(DataDirectory data, Consumer<Store> adding) {
    try (Store store = toWrite(data)) {
      adding.accept(store);
    } catch (StoreException e) {
      throw Refusal.failed("not saved: " + e.getMessage(), e);
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
