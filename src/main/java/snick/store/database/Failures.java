package snick.store.database;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.Set;
import org.sqlite.NativeLibraryNotFoundException;
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
    Trouble trouble = trouble(cause);
    return new StoreException(
        trouble, file + ": " + cause.getMessage() + "; " + nextStep(trouble), cause);
  }

  private StoreException noLibrary(SQLException cause) {
    return new StoreException(
        Trouble.OTHER,
        file
            + ": SQLite's library can be unpacked neither beside it nor into "
            + System.getProperty("java.io.tmpdir")
            + "; free some space in one of them, or make it writable",
        cause);
  }

  StoreException notWritten(IOException cause) {
    return new StoreException(
        Trouble.NOT_WRITTEN,
        file + ": " + cause.getMessage() + "; " + nextStep(Trouble.NOT_WRITTEN),
        cause);
  }

  public StoreException damaged(String what) {
    return new StoreException(
        Trouble.DAMAGED, file + ": " + what + "; " + nextStep(Trouble.DAMAGED));
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

  private String nextStep(Trouble trouble) {
    return switch (trouble) {
      case FULL -> "free some space on its disk, nothing stored is lost";
      case NOT_WRITTEN ->
          "see whether a quota or the largest size of a file is reached (quota, ulimit -f) or the"
              + " disk fails (dmesg), nothing stored is lost";
      case READ_ONLY -> "make the file and its directory writable";
      case BUSY -> "another program is writing to it, try again";
      case DAMAGED ->
          "keep a copy of it and of its -wal file, then: snick store restore BACKUP --data NEW, or"
              + " for what is readable: snick store salvage DIRECTORY --data NEW";
      case NEWER_VERSION -> "use the newer program";
      case MISSING, TAKEN, GONE, OTHER -> "check the path, its owner and its permissions";
    };
  }
}
