package snick.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.locks.LockSupport;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.store.database.Database;
import snick.store.database.Migrations;
import snick.store.database.StoreFile;

/**
 * A program killed while it brings a store to an invented later version: the next start ends where
 * one that was left alone ends, row for row.
 */
class KilledUpgradeTest {
  private static final int OLD = Migrations.VERSION;

  /** As many as make more pages than SQLite keeps back until the commit. */
  private static final int CUTS = 10_000;

  private static final int KILLS = 4;

  /** Short beside the time in which the log grows, and the program can use the core meanwhile. */
  private static final long LOOK_NANOS = 50_000;

  /** Exit status after signal 9. */
  private static final int KILLED = 128 + 9;

  @TempDir Path folder;
  private Path old;
  private Path upgraded;
  private long logBytes;

  @BeforeEach
  void make() throws IOException {
    old = folder.resolve("old");
    OlderStore.make(old, CUTS);
    upgraded = copyOfOld("upgraded");
    try (Database database = Database.writer(StoreFile.in(upgraded))) {
      database.writeAheadLog();
      OlderStore.later(database).runTo(OLD + 1);
      logBytes = Files.size(log(upgraded));
    }
  }

  private Path copyOfOld(String name) throws IOException {
    Path copy = Files.createDirectories(folder.resolve(name));
    Files.copy(StoreFile.in(old), StoreFile.in(copy));
    return copy;
  }

  private static Path log(Path store) {
    return store.resolve("snick.db-wal");
  }

  @Test
  void theNextStartEndsWhereOneLeftAloneEnds() throws Exception {
    List<Integer> found = new ArrayList<>();
    for (int kill = 0; kill < KILLS; kill++) {
      Path store = copyOfOld("killed" + kill);
      killedOnceLogHas(1 + kill * logBytes / KILLS, store);
      found.add(OlderStore.soundVersion(StoreFile.in(store)));
      Store.open(store, Clock.systemUTC(), OlderStore::later).close();
      assertSameRows(store);
      assertCopyIsWhole(store);
    }
    assertThat(found).as("killed within the upgrade").contains(OLD);
  }

  private static void killedOnceLogHas(long bytes, Path store) throws Exception {
    Process program =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-XX:+UseSerialGC",
                "-cp",
                System.getProperty("java.class.path"),
                OpeningProgram.class.getName(),
                store.toString())
            .inheritIO()
            .start();
    while (program.isAlive() && size(log(store)) < bytes) {
      LockSupport.parkNanos(LOOK_NANOS);
    }
    program.toHandle().destroyForcibly();
    assertThat(program.waitFor()).as("ended by itself or by the kill").isIn(0, KILLED);
  }

  private static long size(Path file) {
    return file.toFile().length();
  }

  private void assertSameRows(Path store) {
    try (Database database = Database.writer(StoreFile.in(store))) {
      assertThat(database.pragma("user_version")).isEqualTo(OLD + 1);
      database.query("ATTACH ? AS alone").with(StoreFile.in(upgraded).toString()).change();
      List<String> tables =
          database
              .query("SELECT name FROM alone.sqlite_schema WHERE type = 'table'")
              .list(row -> row.text("name"));
      assertThat(tables).contains("cut", "cut_trace");
      for (String table : tables) {
        assertThat(difference(database, "main." + table, "alone." + table)).as(table).isZero();
        assertThat(difference(database, "alone." + table, "main." + table)).as(table).isZero();
      }
    }
  }

  private static long difference(Database database, String one, String other) {
    return database
        .query(
            "SELECT count(*) AS n FROM (SELECT * FROM "
                + one
                + " EXCEPT SELECT * FROM "
                + other
                + ")")
        .first(row -> row.whole("n"))
        .orElseThrow();
  }

  /** Made before the upgrade began, so it is there whenever its log was. */
  private static void assertCopyIsWhole(Path store) throws IOException {
    try (Stream<Path> files = Files.list(store)) {
      List<Path> copies =
          files.filter(f -> f.getFileName().toString().startsWith("snick-version-")).toList();
      assertThat(copies).isNotEmpty();
      copies.forEach(copy -> assertThat(OlderStore.soundVersion(copy)).isEqualTo(OLD));
    }
  }
}
