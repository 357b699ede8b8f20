package snick.store.database;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import snick.phrase.Phrase;
import snick.store.database.StoreException.Trouble;

/**
 * Brings a file to the schema of this program, one numbered script after the other, all in one
 * transaction. Forward only.
 */
public final class Migrations {
  /** {@code PRAGMA application_id}: the letters Snik. */
  static final int APPLICATION_ID = 0x536e696b;

  private static final List<String> SCRIPTS = List.of("0001-store.sql");

  /** Schema version of this program: the number of its last script. */
  public static final int VERSION = SCRIPTS.size();

  private final Database database;
  private final List<String> scripts;

  public Migrations(Database database) {
    this(database, SCRIPTS);
  }

  /**
   * @param scripts names of all scripts, in order
   */
  public Migrations(Database database, List<String> scripts) {
    this.database = database;
    this.scripts = scripts;
  }

  /** The version that the last script makes. */
  public int newest() {
    return scripts.size();
  }

  /**
   * Version of the file, 0 if it is empty. Refuses a file of another program or newer version.
   * Another program of ours may be making the schema at this moment, in one transaction: so the
   * emptiness is read first, and a file that is not empty has its application id already.
   */
  public int check() {
    boolean empty = isEmpty();
    long application = database.pragma("application_id");
    int version = Math.toIntExact(database.pragma("user_version"));
    requireKnown(database.file(), application, empty, version, newest());
    return version;
  }

  /** Refuses a file of another program, or of a version beyond {@code newest}. */
  static void requireKnown(Path file, long application, boolean empty, int version, int newest) {
    if (application != APPLICATION_ID && !(application == 0 && empty)) {
      throw new StoreException(Trouble.OTHER, Phrase.of("store.of_another_program", "file", file));
    }
    if (version > newest) {
      throw new StoreException(
          Trouble.NEWER_VERSION,
          Phrase.of("store.newer", "file", file, "version", version, "known", newest));
    }
  }

  private boolean isEmpty() {
    return !database.query("SELECT 1 FROM sqlite_schema LIMIT 1").any();
  }

  /** Runs the scripts that the file lacks, up to the one of {@code version}. */
  public void runTo(int version) {
    database.execute("PRAGMA foreign_keys = OFF");
    try {
      database.change(() -> runMissing(version));
    } finally {
      database.execute("PRAGMA foreign_keys = ON");
    }
  }

  private void runMissing(int last) {
    int first = check() + 1;
    if (first > last) {
      return;
    }
    for (int version = first; version <= last; version++) {
      database.execute(script(scripts.get(version - 1)));
    }
    database.sums().rebuild();
    database.execute("PRAGMA application_id = " + APPLICATION_ID);
    database.execute("PRAGMA user_version = " + last);
    if (!database.pragmaText("foreign_key_check").isEmpty()) {
      throw database.failures().damaged(Phrase.of("store.row_refers_to_none"));
    }
  }

  /**
   * Tables and indexes that are not as the scripts make them: SQLite keeps their words, and reads
   * them anew at every start.
   */
  public List<String> strange() {
    String made = scripts.stream().map(Migrations::script).collect(Collectors.joining());
    return database
        .query("SELECT type, name, sql FROM sqlite_schema WHERE name NOT LIKE 'sqlite_auto%'")
        .list(
            row -> {
              String begins = "CREATE " + row.text("type").toUpperCase(Locale.ROOT) + " ";
              String sql = row.optionalText("sql").orElse("");
              boolean same = sql.startsWith(begins + row.text("name") + " ") && made.contains(sql);
              return same ? "" : row.text("type") + " " + row.text("name") + " was changed";
            })
        .stream()
        .filter(problem -> !problem.isEmpty())
        .toList();
  }

  private static String script(String name) {
    try (InputStream in = Migrations.class.getResourceAsStream("/snick/store/" + name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException("script " + name + " of this program is unreadable", e);
    }
  }
}
