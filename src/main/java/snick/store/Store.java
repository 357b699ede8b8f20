package snick.store;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.OptionalLong;
import snick.cut.Cut;
import snick.cut.Trace;

/**
 * The writing side of a store: one SQLite file, {@code snick.db}, in a directory of its own. Every
 * method that changes something is one short transaction, on disk when it returns; on {@link
 * StoreException} nothing of it is stored. Used by one thread at a time; other threads and programs
 * may have their own, a writer waits up to 5 s for another.
 */
public final class Store implements AutoCloseable {
  private final Database database;
  private final Clock clock;
  private final RecordingTable recordings;
  private final CutTable cuts;
  private final ResultTable results;

  private Store(Database database, Clock clock) {
    this.database = database;
    this.clock = clock;
    recordings = new RecordingTable(database);
    cuts = new CutTable(database);
    results = new ResultTable(database);
  }

  /**
   * Opens the store in {@code directory}; creates both if missing, the owner's alone. A store of an
   * older version is copied and brought up to date.
   *
   * @param clock says when a row was added
   * @throws StoreException if it is damaged, of a newer version, or not to be written
   */
  public static Store open(Path directory, Clock clock) {
    Database database = Database.writer(StoreFile.create(directory));
    try {
      prepare(database);
      return new Store(database, clock);
    } catch (RuntimeException e) {
      database.close();
      throw e;
    }
  }

  private static void prepare(Database database) {
    Migrations migrations = new Migrations(database);
    int version = migrations.check();
    database.writeAheadLog();
    if (version < Migrations.VERSION) {
      migrations.run();
    }
  }

  /** Begins a recording; its id. */
  public long startRecording(Recording recording) {
    return database.write(() -> recordings.add(recording));
  }

  /** Sets how a recording's device clock lies on the host's, in place of what was set before. */
  public void setClock(long recordingId, HostClock hostClock) {
    database.write(
        () -> {
          recordings.setClock(recordingId, hostClock);
          return null;
        });
  }

  /**
   * Adds a cut with its trace and result; its id. A cut that is already there with the same trace
   * (after a failure whose end is unknown) is left as it is, so trying again is safe.
   *
   * @param occurredAt host time of the break, or of the onset if it did not break
   * @throws IllegalArgumentException if the recording has another cut of this number
   */
  public long append(long recordingId, Instant occurredAt, Cut cut) {
    return database.write(() -> appendOnce(recordingId, occurredAt, cut));
  }

  private long appendOnce(long recordingId, Instant occurredAt, Cut cut) {
    OptionalLong there = cuts.find(recordingId, cut.number());
    if (there.isPresent()) {
      return same(there.getAsLong(), recordingId, cut);
    }
    long id = cuts.add(recordingId, occurredAt, cut);
    results.add(id, Cut.DETECTOR_VERSION, cut, clock.instant());
    return id;
  }

  private long same(long id, long recordingId, Cut cut) {
    Trace stored = cuts.trace(id);
    if (!stored.equals(cut.trace())) {
      throw new IllegalArgumentException(
          "recording "
              + recordingId
              + " already has a cut "
              + cut.number()
              + " with another trace");
    }
    return id;
  }

  @Override
  public void close() {
    database.close();
  }
}
