package snick.store;

import java.nio.file.Path;
import java.sql.SQLException;
import snick.store.StoreException.Trouble;

/**
 * Says what a database error means and what to do next. Codes: SQLite, "Result and Error Codes"
 * (sqlite.org/rescode.html).
 */
final class Failures {
  private static final int PRIMARY_CODE = 0xff;
  private static final int IOERR_SHMSIZE = 4874;
  private static final int CANNOT_OPEN = 14;

  private final Path file;

  Failures(Path file) {
    this.file = file;
  }

  StoreException of(SQLException cause) {
    Trouble trouble = trouble(cause);
    return new StoreException(
        trouble, file + ": " + cause.getMessage() + "; " + nextStep(trouble), cause);
  }

  StoreException damaged(String what) {
    return new StoreException(
        Trouble.DAMAGED, file + ": " + what + "; " + nextStep(Trouble.DAMAGED));
  }

  private Trouble trouble(SQLException cause) {
    if (extendedCode(cause) == IOERR_SHMSIZE) {
      return Trouble.FULL;
    }
    if ((cause.getErrorCode() & PRIMARY_CODE) == CANNOT_OPEN && Database.isBesideReadOnly(file)) {
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
      case READ_ONLY -> "make the file and its directory writable";
      case BUSY -> "another program is writing to it, try again";
      case DAMAGED ->
          "keep a copy of it and of its -wal file, then: snick store restore BACKUP --data NEW, or"
              + " for what is readable: snick store salvage DIRECTORY --data NEW";
      case NEWER_VERSION -> "use the newer program";
      case MISSING, OTHER -> "check the path, its owner and its permissions";
    };
  }
}
