package snick.store.database;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import org.sqlite.SQLiteErrorCode;
import org.sqlite.SQLiteException;

/**
 * What a killed program left beside a database whose commits were not kept in a write-ahead log:
 * the journal of how it was before, which only one who writes may play back, and whoever opens it
 * for writing does. Layouts: SQLite, "Database File Format", sections 1.3 and 3.
 */
public final class HotJournal {
  private static final int HEADER_BYTES = 100;
  private static final int VERSION_AT = 60;
  private static final int APPLICATION_AT = 68;
  private static final int PAGES_BEFORE_AT = 16;

  private HotJournal() {}

  /** Whether there is a journal beside {@code file}, hot or of a program at work. */
  public static boolean mayBeBeside(Path file) {
    return Files.exists(beside(file));
  }

  private static Path beside(Path file) {
    return file.resolveSibling(file.getFileName() + "-journal");
  }

  /** Whether it was a journal to be played back that kept a reader from reading. */
  public static boolean stopped(StoreException reading) {
    return reading.getCause() instanceof SQLiteException cause
        && cause.getResultCode() == SQLiteErrorCode.SQLITE_READONLY_ROLLBACK;
  }

  /**
   * Refuses, before a writer plays it back, a journal beside another program's database or one of a
   * newer version. SQLite tells neither before it has played it back, so the file's own header is
   * asked. One that has no application id yet is ours to make if it was empty before.
   */
  public static void requireOwn(Path file) {
    if (!mayBeBeside(file)) {
      return;
    }
    try {
      ByteBuffer header = first(file);
      boolean emptyBefore = first(beside(file)).getInt(PAGES_BEFORE_AT) == 0;
      Migrations.requireKnown(
          file,
          header.getInt(APPLICATION_AT),
          emptyBefore,
          header.getInt(VERSION_AT),
          Migrations.VERSION);
    } catch (IOException gone) {
      // Its maker was done, or SQLite will not read it either and says why.
      return;
    }
  }

  /** The first bytes; 0 for those that are not there. */
  private static ByteBuffer first(Path file) throws IOException {
    try (InputStream in = Files.newInputStream(file)) {
      return ByteBuffer.wrap(Arrays.copyOf(in.readNBytes(HEADER_BYTES), HEADER_BYTES));
    }
  }
}
