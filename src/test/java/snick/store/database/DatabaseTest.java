package snick.store.database;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.store.Store;

class DatabaseTest {
  @TempDir Path directory;

  @BeforeEach
  void create() {
    Store.open(directory, Clock.systemUTC()).close();
  }

  @Test
  void everySettingIsAsMeant() {
    try (Database writer = Database.writer(StoreFile.in(directory));
        Database reader = Database.reader(StoreFile.in(directory))) {
      for (Database database : List.of(writer, reader)) {
        assertThat(database.pragmaText("journal_mode")).isEqualTo("wal");
        assertThat(database.pragma("synchronous")).as("FULL").isEqualTo(2);
        assertThat(database.pragma("foreign_keys")).isEqualTo(1);
        assertThat(database.pragma("cell_size_check")).isEqualTo(1);
        assertThat(database.pragma("trusted_schema")).isZero();
        assertThat(database.pragma("busy_timeout")).isEqualTo(Database.BUSY_TIMEOUT_MILLIS);
        assertThat(database.pragma("application_id")).isEqualTo(Migrations.APPLICATION_ID);
        assertThat(database.pragma("user_version")).isEqualTo(Migrations.VERSION);
      }
      assertThat(writer.pragma("query_only")).isZero();
      assertThat(reader.pragma("query_only")).isEqualTo(1);
    }
  }

  /** The fault in the write-ahead log that SQLite 3.51.3 mended (sqlite.org/wal.html). */
  @Test
  void theLibraryIsNewerThanTheWalResetFault() {
    try (Database reader = Database.reader(StoreFile.in(directory))) {
      String version =
          reader.query("SELECT sqlite_version() AS v").first(row -> row.text("v")).orElseThrow();
      assertThat(Runtime.Version.parse(version))
          .isGreaterThanOrEqualTo(Runtime.Version.parse("3.51.3"));
    }
  }
}
