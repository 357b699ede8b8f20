package snick.store;

import java.nio.file.Path;
import snick.cut.Cut;
import snick.cut.Trace;

/** Stores as earlier versions of this program left them, and what they hold. */
public final class OlderStore {
  /** The last version in which a cut and its first result were two rows. */
  private static final int LAST_WITH_RESULTS_APART = 6;

  /** The last version in which a trace lay by the id of its cut. */
  private static final int LAST_WITH_TRACES_BY_CUT = 7;

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
      addCut(database, recording, Examples.severed(number));
    }
    return null;
  }

  /** Adds a cut of detector version 1 as the schema of {@code database} wants it; its id. */
  static long addCut(Database database, long recording, Cut cut) {
    Derivation first = new Derivation(1, Examples.NOON, cut);
    long version = database.pragma("user_version");
    if (version > LAST_WITH_TRACES_BY_CUT) {
      return new CutTable(database).add(recording, Examples.NOON, first);
    }
    boolean resultApart = version <= LAST_WITH_RESULTS_APART;
    Query insertion =
        database
            .query(
                "INSERT INTO cut (recording, number, occurred_at_utc_ns, samples"
                    + (resultApart ? "" : ", " + ResultTable.FIGURES)
                    + ") VALUES (?, ?, ?, ?"
                    + (resultApart ? ")" : ", " + ResultTable.PARAMETERS + ")"))
            .whole(recording)
            .whole(cut.number())
            .instant(Examples.NOON)
            .whole(cut.trace().size());
    long id = (resultApart ? insertion : ResultTable.bind(insertion, first)).insertedId();
    addTrace(database, id, cut.trace());
    if (resultApart) {
      new ResultTable(database).add(id, first);
    }
    return id;
  }

  /** The trace of a cut as stores up to version 7 keep it. */
  static Trace trace(Database database, long cut) {
    return database
        .query("SELECT samples FROM cut_trace WHERE cut = ?")
        .whole(cut)
        .first(row -> TraceBlob.decode(row.blob("samples")))
        .orElseThrow();
  }

  private static void addTrace(Database database, long id, Trace trace) {
    byte[] samples = TraceBlob.encode(trace);
    database
        .query("INSERT INTO cut_trace VALUES (?, ?, ?)")
        .whole(id)
        .whole(TraceBlob.checksum(samples))
        .blob(samples)
        .change();
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
