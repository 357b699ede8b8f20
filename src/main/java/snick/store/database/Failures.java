package snick.store.database;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.Set;
import org.sqlite.NativeLibraryNotFoundException;
import snick.phrase.Phrase;
import snick.store.database.StoreException.Trouble;

/**
 * Says what a database error means and what to do next. Codes: SQLite, "Result and Error Codes"
 * (sqlite.org/rescode.html).
 */
public final class Failures {
  private static final int PRIMARY_CODE = 0xff;
  private static final int IOERR_SHMSIZE = 4874;

  /** SQLITE_IOERR_WRITE, _FSYNC, _TRUNCATE: whatever is in the way but a full disk. */
  private static final Set<Integer> NOT_WRITTEN = Set.of(778, 1034, 1546);

  private static final int CANNOT_OPEN = 14;

  private final Path file;

  Failures(Path file) {
    this.file = file;
  }

  StoreException of(SQLException cause) {
    if (cause.getCause() instanceof NativeLibraryNotFoundException) {
      return noLibrary(cause);
    }
    return failed(trouble(cause), cause.getMessage(), cause);
  }

  private StoreException noLibrary(SQLException cause) {
    return new StoreException(
        Trouble.OTHER,
        Phrase.of("store.no_library", "file", file, "folder", System.getProperty("java.io.tmpdir")),
        cause);
  }

  StoreException notWritten(IOException cause) {
    return failed(Trouble.NOT_WRITTEN, cause.getMessage(), cause);
  }

  /**
   * Something in the file is not what was written.
   *
   * @param what a phrase, or a finding of SQLite's own
   */
  public StoreException damaged(Object what) {
    return failed(Trouble.DAMAGED, what, null);
  }

  private StoreException failed(Trouble trouble, Object what, Exception cause) {
    return new StoreException(
        trouble,
        Phrase.of("store.failed", "file", file, "what", what, "next", nextStep(trouble)),
        cause);
  }

  private Trouble trouble(SQLException cause) {
    if (extendedCode(cause) == IOERR_SHMSIZE) {
      return Trouble.FULL;
    }
    if (NOT_WRITTEN.contains(extendedCode(cause))) {
      return Trouble.NOT_WRITTEN;
    }
    if ((cause.getErrorCode() & PRIMARY_CODE) == CANNOT_OPEN
        && Files.isReadable(file)
        && Database.isBesideReadOnly(file)) {
      return Trouble.READ_ONLY;
    }
    return switch (cause.getErrorCode() & PRIMARY_CODE) {
      case 5, 6 -> Trouble.BUSY;
      case 8 -> Trouble.READ_ONLY;
      case 11, 26 -> Trouble.DAMAGED;
      case 13 -> Trouble.FULL;
      default -> Trouble.OTHER;
    };
  }

  private static int extendedCode(SQLException cause) {
    return cause instanceof org.sqlite.SQLiteException sqlite
        ? sqlite.getResultCode().code
        : cause.getErrorCode();
  }

  private static Phrase nextStep(Trouble trouble) {
    return switch (trouble) {
      case FULL -> Phrase.of("store.next_full");
      case NOT_WRITTEN -> Phrase.of("store.next_not_written");
      case READ_ONLY -> Phrase.of("store.next_read_only");
      case BUSY -> Phrase.of("store.next_busy");
      case DAMAGED -> Phrase.of("store.next_damaged");
      case NEWER_VERSION -> Phrase.of("store.next_newer_version");
      case MISSING, TAKEN, GONE, OTHER -> Phrase.of("store.next_other");
    };
  }
}
