package snick.store.database;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import java.util.function.Supplier;
import org.sqlite.ProgressHandler;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteConnection;
import org.sqlite.SQLiteOpenMode;
import snick.phrase.Phrase;

/**
 * One connection to the file, its settings, its transactions and its prepared statements. Not for
 * two threads at once.
 */
public final class Database implements AutoCloseable {
  /** How long a writer waits for another writer, ms. */
  static final int BUSY_TIMEOUT_MILLIS = 5_000;

  private static final int WAL_SIZE_LIMIT_BYTES = 16 << 20;

  /** Instructions of SQLite's virtual machine. */
  private static final int STEPS_BETWEEN_LOOKS = 50_000;

  private final Path file;
  private final Optional<Object> key;
  private final Failures failures;
  private final Connection connection;
  private final RowSums sums = new RowSums(this);
  private final Map<String, PreparedStatement> statements = new HashMap<>();

  Database(Path file, Connection connection) {
    this.file = file;
    this.key = StoreFile.key(file);
    this.failures = new Failures(file);
    this.connection = connection;
  }

  /** Opens for reading and writing an existing file, empty or not. Nothing is written yet. */
  public static Database writer(Path file) {
    return open(file, false);
  }

  /** Opens for reading only. */
  public static Database reader(Path file) {
    Database database = open(file, true);
    database.execute("PRAGMA query_only = ON");
    return database;
  }

  /** Opens for reading only, to be copied from: SQLite makes the copy through this connection. */
  public static Database source(Path file) {
    return open(file, true);
  }

  private static Database open(Path file, boolean readOnly) {
    SQLiteConfig config = new SQLiteConfig();
    config.setReadOnly(readOnly);
    config.resetOpenMode(SQLiteOpenMode.CREATE);
    config.setBusyTimeout(BUSY_TIMEOUT_MILLIS);
    // Else the driver parses and runs a query for them after every insertion.
    config.setGetGeneratedKeys(false);
    try {
      SQLiteConnection connection =
          (SQLiteConnection) config.createConnection("jdbc:sqlite:" + name(file, readOnly));
      Database database = new Database(file, connection);
      if (!readOnly) {
        connection.addUpdateListener((act, of, table, row) -> database.sums.changed(table, row));
      }
      database.settings();
      return database;
    } catch (SQLException e) {
      throw new Failures(file).of(e);
    }
  }

  /**
   * A file on a read-only disk, whose last writer closed it, is read as one that never changes:
   * else SQLite would want to make the index of its write-ahead log beside it.
   */
  private static String name(Path file, boolean readOnly) {
    Path log = file.resolveSibling(file.getFileName() + "-wal");
    return readOnly
            && isBesideReadOnly(file)
            && Files.notExists(log)
            && !HotJournal.mayBeBeside(file)
        ? file.toUri() + "?immutable=1"
        : file.toAbsolutePath().toString();
  }

  /** Whether nothing can be written beside {@code file}. */
  static boolean isBesideReadOnly(Path file) {
    return !Files.isWritable(file.toAbsolutePath().getParent());
  }

  private void settings() {
    try {
      execute("PRAGMA trusted_schema = OFF");
      execute("PRAGMA cell_size_check = ON");
      execute("PRAGMA foreign_keys = ON");
      execute("PRAGMA synchronous = FULL");
      execute("PRAGMA mmap_size = 0");
      execute("PRAGMA temp_store = MEMORY");
    } catch (StoreException e) {
      close();
      throw e;
    }
  }

  /** Keeps commits in a write-ahead log. Another program may be doing the same at this moment. */
  public void writeAheadLog() {
    for (int attempt = 1; !"wal".equals(pragmaText("journal_mode")); attempt++) {
      try {
        execute("PRAGMA journal_mode = WAL");
      } catch (StoreException e) {
        if (e.trouble() != StoreException.Trouble.BUSY || attempt == 10) {
          throw e;
        }
        change(() -> {});
      }
    }
    execute("PRAGMA journal_size_limit = " + WAL_SIZE_LIMIT_BYTES);
  }

  /** Refuses a file that may not be written, before anybody relies on it. */
  public void requireWritable() {
    try {
      change(() -> {});
    } catch (StoreException e) {
      if (e.trouble() != StoreException.Trouble.BUSY) {
        throw e;
      }
    }
  }

  /** The sums of the rows of this connection. */
  public RowSums sums() {
    return sums;
  }

  public Path file() {
    return file;
  }

  public Failures failures() {
    return failures;
  }

  /**
   * Runs {@code work} in one transaction that holds the writer's lock from its start.
   *
   * @throws StoreException of trouble GONE if that was written to a file that is no longer there,
   *     of trouble NOT_WRITTEN if the disk gave up meanwhile
   */
  public <T> T write(Supplier<T> work) {
    T result =
        transaction(
            "BEGIN IMMEDIATE",
            () -> {
              T given = work.get();
              sums.write();
              return given;
            });
    requireOnDisk();
    requireInPlace();
    return result;
  }

  /** As {@link #write}, of work that gives nothing. */
  public void change(Runnable work) {
    write(
        () -> {
          work.run();
          return null;
        });
  }

  /**
   * Asks a second time whether the write-ahead log is on the disk: a file system that its kernel
   * gives up while a commit waits may have told the first that all is well (decision 0014).
   */
  private void requireOnDisk() {
    Path log = file.resolveSibling(file.getFileName() + "-wal");
    if (Files.exists(log)) {
      try (RandomAccessFile again = new RandomAccessFile(log.toFile(), "rw")) {
        again.getFD().sync();
      } catch (IOException e) {
        throw failures.notWritten(e);
      }
    }
  }

  /** Refuses to go on once the path leads to another file, or to none. */
  public void requireInPlace() {
    if (!StoreFile.key(file).equals(key)) {
      throw new StoreException(StoreException.Trouble.GONE, Phrase.of("store.gone", "file", file));
    }
  }

  /** Runs {@code work} on one unchanging view of the store. */
  public <T> T read(Supplier<T> work) {
    return transaction("BEGIN", work);
  }

  private <T> T transaction(String begin, Supplier<T> work) {
    query(begin).change();
    boolean done = false;
    try {
      T result = work.get();
      query("COMMIT").change();
      done = true;
      return result;
    } finally {
      if (!done) {
        sums.forget();
        rollBack();
      }
    }
  }

  private void rollBack() {
    try (Statement statement = connection.createStatement()) {
      statement.executeUpdate("ROLLBACK");
    } catch (SQLException alreadyRolledBack) {
      // SQLite itself rolls back on some errors (full disk, I/O); the cause is on its way up.
      return;
    }
  }

  /**
   * Runs {@code work} and asks {@code goesOn} some hundred times a second meanwhile, on this
   * thread.
   *
   * @throws Watch.Stopped once it says no; then the statement under way was undone
   */
  public void watched(BooleanSupplier goesOn, Runnable work) {
    boolean[] stopped = {false};
    ProgressHandler handler =
        new ProgressHandler() {
          @Override
          protected int progress() {
            stopped[0] |= !goesOn.getAsBoolean();
            return stopped[0] ? 1 : 0;
          }
        };
    try {
      ProgressHandler.setHandler(connection, STEPS_BETWEEN_LOOKS, handler);
      work.run();
      ProgressHandler.clearHandler(connection);
    } catch (SQLException e) {
      throw failures.of(e);
    } catch (StoreException e) {
      if (stopped[0]) {
        throw new Watch.Stopped();
      }
      throw e;
    }
  }

  /** A statement ready to be bound. */
  public Query query(String sql) {
    try {
      PreparedStatement statement = statements.get(sql);
      if (statement == null) {
        statement = connection.prepareStatement(sql);
        statements.put(sql, statement);
      }
      return new Query(this, statement);
    } catch (SQLException e) {
      throw failures.of(e);
    }
  }

  /** Id of the row that this connection inserted last. */
  long lastInsertedId() {
    return query("SELECT last_insert_rowid() AS id").first(row -> row.whole("id")).orElseThrow();
  }

  /**
   * What a failed statement means. The driver closes a statement that failed, so all are prepared
   * anew when they are next needed.
   */
  StoreException failed(SQLException cause) {
    for (PreparedStatement statement : statements.values()) {
      try {
        statement.close();
      } catch (SQLException e) {
        cause.addSuppressed(e);
      }
    }
    statements.clear();
    return failures.of(cause);
  }

  /** Runs one or more statements that give no rows. */
  public void execute(String sql) {
    try (Statement statement = connection.createStatement()) {
      statement.executeUpdate(sql);
    } catch (SQLException e) {
      throw failures.of(e);
    }
  }

  public long pragma(String name) {
    return Long.parseLong(pragmaText(name));
  }

  String pragmaText(String name) {
    try (Statement statement = connection.createStatement();
        var rows = statement.executeQuery("PRAGMA " + name)) {
      return rows.next() ? rows.getString(1) : "";
    } catch (SQLException e) {
      throw failures.of(e);
    }
  }

  @Override
  public void close() {
    try {
      connection.close();
    } catch (SQLException e) {
      throw failures.of(e);
    }
  }
}
