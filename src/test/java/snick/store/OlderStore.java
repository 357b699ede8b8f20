package snick.store;

import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.stream.IntStream;
import snick.store.care.IntegrityCheck;
import snick.store.database.Database;
import snick.store.database.Migrations;
import snick.store.database.StoreFile;
import snick.store.record.Derivation;
import snick.store.record.NewCut;
import snick.store.table.CutTable;
import snick.store.table.RecordingTable;

/** Stores of this version and of an invented later one, and what they hold. */
public final class OlderStore {
  private static final List<String> LATER_SCRIPTS = List.of("0001-store.sql", "0002-invented.sql");

  private OlderStore() {}

  /** Newest schema version. */
  public static int newestVersion() {
    return Migrations.VERSION;
  }

  /** Makes a store in {@code directory}, with so many cuts, in one commit. */
  public static void make(Path directory, int cuts) {
    Store.open(directory, Clock.systemUTC()).close();
    try (Database database = Database.writer(StoreFile.in(directory))) {
      database.write(() -> fill(database, cuts));
    }
  }

  private static Void fill(Database database, int cuts) {
    long recording = new RecordingTable(database).add(Examples.recording());
    CutTable table = new CutTable(database);
    IntStream.rangeClosed(1, cuts)
        .mapToObj(number -> NewCut.of(recording, Examples.NOON, Examples.severed(number)))
        .forEach(cut -> table.add(cut, new Derivation(1, Examples.NOON, cut.cut())));
    return null;
  }

  /** The scripts of a version after this one: its last rewrites every trace. */
  static Migrations later(Database database) {
    return new Migrations(database, LATER_SCRIPTS);
  }

  /** Appends so many cuts, each in a commit of its own. */
  public static void append(Store store, int cuts) {
    long recording = store.startRecording(Examples.recording());
    for (int number = 1; number <= cuts; number++) {
      store.append(NewCut.of(recording, Examples.NOON, Examples.severed(number)));
    }
  }

  /** Gives the store in {@code directory} another schema version, as a newer program would. */
  public static void setVersion(Path directory, int version) {
    try (Database database = Database.writer(StoreFile.in(directory))) {
      database.execute("PRAGMA user_version = " + version);
    }
  }

  /** Schema version of a store's file, and whether the file is sound. */
  public static int soundVersion(Path file) {
    try (Database database = Database.reader(file)) {
      IntegrityCheck.requireSound(database);
      return Math.toIntExact(database.pragma("user_version"));
    }
  }
}
