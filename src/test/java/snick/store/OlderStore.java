package snick.store;

import java.nio.file.Path;

/** Stores as earlier versions of this program left them, and what they hold. */
public final class OlderStore {
  private OlderStore() {}

  /** Newest schema version. */
  public static int newestVersion() {
    return Migrations.VERSION;
  }

  /** Makes a store of schema {@code version} in {@code directory}, with so many cuts. */
  public static void make(Path directory, int version, int cuts) {
    try (Database database = Database.writer(StoreFile.create(directory))) {
      new Migrations(database).runTo(version);
      database.write(() -> fill(database, cuts));
    }
  }

  private static Void fill(Database database, int cuts) {
    long recording = new RecordingTable(database).add(Examples.recording());
    for (int number = 1; number <= cuts; number++) {
      long id = new CutTable(database).add(recording, Examples.NOON, Examples.severed(number));
      new ResultTable(database).add(id, 1, Examples.severed(number), Examples.NOON);
    }
    return null;
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
