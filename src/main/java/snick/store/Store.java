package snick.store;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.Consumer;
import java.util.function.Function;
import snick.cut.Cut;
import snick.cut.Trace;
import snick.cut.response.FallBook;
import snick.force.budget.Calibration;
import snick.phrase.Phrase;
import snick.quantity.SampleRate;
import snick.store.care.Photos;
import snick.store.care.Salvage;
import snick.store.care.SalvageReport;
import snick.store.care.StoreCopy;
import snick.store.database.Database;
import snick.store.database.HotJournal;
import snick.store.database.Migrations;
import snick.store.database.NativeLibrary;
import snick.store.database.PartialFile;
import snick.store.database.StoreException;
import snick.store.database.StoreFile;
import snick.store.database.Watch;
import snick.store.record.Derivation;
import snick.store.record.Evidence;
import snick.store.record.HostClock;
import snick.store.record.NewCut;
import snick.store.record.NewResult;
import snick.store.record.Origin;
import snick.store.record.Recording;
import snick.store.record.StoredResponse;
import snick.store.record.Verification;
import snick.store.trace.TraceSpool;

/**
 * The writing side of a store: one SQLite file, {@code snick.db}, in a directory of its own. Every
 * method that changes something is one short transaction, on disk when it returns; on {@link
 * StoreException} nothing of it is stored. Used by one thread at a time; other threads and programs
 * may have their own, a writer waits up to 5 s for another.
 */
public final class Store implements AutoCloseable {
  private final Database database;
  private final Tables tables;
  private final Clock clock;
  private final JournalWriter journal;
  private final Mending mending;

  public Store(Database database, Clock clock) {
    this.database = database;
    tables = new Tables(database);
    this.clock = clock;
    journal = new JournalWriter(database, clock);
    mending = new Mending(database, clock);
  }

  /**
   * Opens the store in {@code directory}; creates both if missing, the owner's alone. A store of an
   * older version is copied and brought up to date.
   *
   * @param clock says when a row was added
   * @throws StoreException if it is damaged, of a newer version, or not to be written
   */
  public static Store open(Path directory, Clock clock) {
    HotJournal.requireOwn(StoreFile.in(directory));
    return open(directory, clock, Migrations::new);
  }

  /** As {@link #open(Path, Clock)}, with scripts that only a later version of this program has. */
  static Store open(Path directory, Clock clock, Function<Database, Migrations> scripts) {
    Path file = StoreFile.create(directory);
    PartialFile.removeLeftOver(directory);
    NativeLibrary.keepIn(StoreFile.libraryIn(directory));
    Database database = Database.writer(file);
    try {
      prepare(scripts.apply(database), database, clock);
      return new Store(database, clock);
    } catch (RuntimeException e) {
      database.close();
      throw e;
    }
  }

  private static void prepare(Migrations migrations, Database database, Clock clock) {
    int version = migrations.check();
    database.writeAheadLog();
    if (version == migrations.newest()) {
      database.requireWritable();
      return;
    }
    if (version > 0) {
      new StoreCopy(StoreFile.beforeUpgrade(database.file(), version, clock.instant()), Watch.NONE)
          .of(database.file());
    }
    migrations.runTo(migrations.newest());
  }

  /**
   * Makes a store in {@code directory} out of a backup, which is checked first. A store that is
   * already there is left alone.
   *
   * @return photos of it that are missing or changed, one sentence each
   * @throws StoreException if the backup is unsound or no store of this program, or the directory
   *     has a store
   */
  public static List<String> restore(Path backup, Path directory, Watch watch) {
    try (Database database = Database.reader(StoreFile.requireThere(backup))) {
      if (new Migrations(database).check() == 0) {
        throw new StoreException(
            StoreException.Trouble.OTHER, Phrase.of("store.backup_empty", "file", backup));
      }
    }
    Path restored = StoreFile.inNew(directory);
    new StoreCopy(restored, watch).of(backup);
    return Photos.in(directory).takeOver(Photos.besideBackup(backup.toAbsolutePath()), restored);
  }

  /**
   * Makes a new store in {@code directory} out of what is readable of a damaged one, which is left
   * as it is. No readable trace is lost; a cut whose result is lost gets one of outcome disturbed
   * and detector version 0, to be derived again; one whose trace is lost gets an empty one.
   *
   * @param damaged directory of the damaged store
   * @throws StoreException if its first page is gone (its header alone may be), or {@code
   *     directory} has a store
   */
  public static SalvageReport salvage(Path damaged, Path directory) {
    Path from = StoreFile.existing(damaged);
    Path fresh = StoreFile.inNew(directory);
    SalvageReport rows =
        new StoreCopy(fresh, Watch.NONE).filledBy(partial -> Salvage.copy(from, partial));
    List<String> lost = new ArrayList<>(rows.lost());
    lost.addAll(Photos.in(directory).takeOver(Photos.in(damaged), fresh));
    return new SalvageReport(rows.rowsKept(), lost);
  }

  /**
   * Asks whether the file is still where it was opened; every change asks that too.
   *
   * @throws StoreException of trouble GONE if it was deleted, moved or renamed
   */
  public void requireInPlace() {
    database.requireInPlace();
  }

  /** Begins a recording; its id. */
  public long startRecording(Recording recording) {
    return database.write(() -> tables.recordings.add(recording));
  }

  /** Sets how a recording's device clock lies on the host's, in place of what was set before. */
  public void setClock(long recordingId, HostClock hostClock) {
    database.change(() -> tables.recordings.setClock(recordingId, hostClock));
  }

  /**
   * Adds a cut with its trace and all that belongs to it; its id. A cut that is already there with
   * the same trace (after a failure whose end is unknown) is left as it is, so trying again is
   * safe.
   *
   * @throws IllegalArgumentException if the recording has another cut of this number, or the force
   *     was derived with a calibration that is not in the store
   */
  public long append(NewCut cut) {
    return database.write(() -> appendOnce(cut));
  }

  private long appendOnce(NewCut cut) {
    Instant now = clock.instant();
    OptionalLong added = tables.cuts.addNew(cut, Derivation.own(cut.cut(), now));
    if (added.isEmpty()) {
      return same(cut.recordingId(), cut.cut());
    }
    long id = added.getAsLong();
    cut.force().ifPresent(force -> tables.forces.add(id, OptionalLong.empty(), force, now));
    if (cut.inRunningStage()) {
      journal.land(deviceId(cut), id, cut.occurredAt(), cut.placeMm());
    }
    return id;
  }

  private String deviceId(NewCut cut) {
    return tables.recordings.find(cut.recordingId()).orElseThrow().recording().deviceId();
  }

  private long same(long recordingId, Cut cut) {
    long id = tables.cuts.find(recordingId, cut.number()).orElseThrow();
    Trace stored = tables.cuts.trace(id);
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

  /**
   * Adds results or forces of stored cuts, all in one transaction; they become the current ones.
   * Give some hundreds at a time.
   *
   * @throws IllegalArgumentException if a cut or calibration is not in the store
   */
  public void addResults(List<NewResult> derived) {
    database.change(() -> derived.forEach(this::addResult));
  }

  private void addResult(NewResult derived) {
    long id = derived.cutId();
    if (!tables.cuts.has(id)) {
      throw new IllegalArgumentException("cut " + id + " is not in the store");
    }
    Instant now = clock.instant();
    OptionalLong later =
        derived
            .cut()
            .map(cut -> OptionalLong.of(tables.results.add(id, Derivation.own(cut, now))))
            .orElseGet(() -> tables.results.latestLater(id));
    derived.force().ifPresent(force -> tables.forces.add(id, later, force, now));
  }

  /**
   * Adds a calibration; one that is already there, the same, is left as it is.
   *
   * @param document points, fit and procedure as its maker wrote them down
   * @throws IllegalArgumentException if the store has another one of this id
   */
  public void add(Calibration calibration, Optional<String> document) {
    database.change(() -> tables.calibrations.add(calibration, document, clock.instant()));
  }

  /** Adds what was learned of a rig, with its evidence; the very same is stored once. */
  public void add(StoredResponse learned) {
    database.change(() -> tables.responses.add(learned));
  }

  /**
   * The falls that a rig has shown in one's own cuts, the latest with their cut ids, ready to go
   * on; reads at most {@link FallBook#MOST} traces.
   */
  public FallBook<Long> falls(String deviceId, Optional<SampleRate> nominalRate) {
    return database.read(
        () -> new StoredFalls(tables.cuts, tables.responses).of(deviceId, nominalRate));
  }

  /** The response learned last of a rig at a nominal rate. */
  public Optional<StoredResponse> currentResponse(
      String deviceId, Optional<SampleRate> nominalRate) {
    return database.read(() -> tables.responses.latest(deviceId, nominalRate));
  }

  /**
   * Takes in what comes from elsewhere, all in one transaction; the very same comes in once.
   *
   * @throws RuntimeException whatever {@code work} throws; then nothing was stored
   */
  public Origin.Outcome takeIn(Origin origin, Consumer<Intake> work) {
    return database.write(
        () -> {
          if (tables.origins.knows(origin.sha256())) {
            return new Origin.Outcome(0, 0, true);
          }
          long id = tables.origins.add(origin, clock.instant());
          Intake intake = new Intake(database, clock, id);
          work.accept(intake);
          return intake.outcome();
        });
  }

  /** Room for traces on their way into this store, beside its file. */
  public TraceSpool spool() throws IOException {
    return TraceSpool.in(database.file().toAbsolutePath().getParent());
  }

  /** Adds a verification with a check mass. */
  public void add(Verification verification) {
    database.change(() -> tables.evidence.add(verification));
  }

  /** Adds evidence about a rig. */
  public void add(Evidence item) {
    database.change(() -> tables.evidence.add(item));
  }

  /** Photos of inspections. */
  public Photos photos() {
    return Photos.in(database.file().toAbsolutePath().getParent());
  }

  /** Writes the journal through this store. */
  public JournalWriter journal() {
    return journal;
  }

  /** Mends names and places in the journal. */
  public Mending mending() {
    return mending;
  }

  @Override
  public void close() {
    database.close();
  }
}
