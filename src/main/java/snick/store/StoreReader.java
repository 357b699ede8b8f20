package snick.store;

import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import snick.cut.response.Response;
import snick.journal.SetAside;
import snick.quantity.SampleRate;
import snick.store.care.IntegrityCheck;
import snick.store.care.IntegrityReport;
import snick.store.care.Photos;
import snick.store.care.StoreCopy;
import snick.store.database.Database;
import snick.store.database.HotJournal;
import snick.store.database.Migrations;
import snick.store.database.NativeLibrary;
import snick.store.database.StoreException;
import snick.store.database.StoreFile;
import snick.store.database.Watch;
import snick.store.record.Credit;
import snick.store.record.CutSelection;
import snick.store.record.CutSummary;
import snick.store.record.Derivation;
import snick.store.record.EarlierResult;
import snick.store.record.Evidence;
import snick.store.record.Origin;
import snick.store.record.Rig;
import snick.store.record.StoredCalibration;
import snick.store.record.StoredCut;
import snick.store.record.StoredForce;
import snick.store.record.StoredRecording;
import snick.store.record.StoredResponse;
import snick.store.record.Verification;
import snick.verdict.burr.StageEvidence.CutResult;

/**
 * The reading side of a store. Never writes and never holds up a writer. Used by one thread at a
 * time; open as many as needed.
 */
public final class StoreReader implements AutoCloseable {
  private static final int PAGE = 1_000;

  private final Database database;
  private final Tables tables;
  private final Map<String, Response> used = new HashMap<>();
  private final JournalReader journal;

  public StoreReader(Database database) {
    this.database = database;
    tables = new Tables(database);
    journal = new JournalReader(database);
  }

  /**
   * Copies the store of {@code directory} to {@code target}, a new file: consistent even while it
   * is recorded to, checked, and under its name only when it is whole. Takes no {@link
   * StoreReader}, so that it need not hold up its reading. Photos go into a folder beside {@code
   * target}, named as it with {@code -photos} behind.
   *
   * @return photos that are missing or changed, one sentence each
   * @throws StoreException if {@code target} exists or cannot be written, or the store is damaged
   */
  public static List<String> backUp(Path directory, Path target, Watch watch) {
    Path file = StoreFile.existing(directory);
    NativeLibrary.keepIn(StoreFile.libraryIn(directory));
    makeWhole(directory, file);
    new StoreCopy(target, watch).of(file);
    return Photos.besideBackup(target.toAbsolutePath()).takeOver(Photos.in(directory), target);
  }

  /** Photos of inspections. */
  public Photos photos() {
    return Photos.in(database.file().toAbsolutePath().getParent());
  }

  /**
   * Opens the store in {@code directory}, which must exist. One of an older version, or whose
   * program was killed while it was made, is first brought up to date as by {@link Store#open}.
   *
   * @throws StoreException if there is none, it is damaged or of a newer version
   */
  public static StoreReader open(Path directory) {
    Path file = StoreFile.existing(directory);
    NativeLibrary.keepIn(StoreFile.libraryIn(directory));
    makeWhole(directory, file);
    Database database = Database.reader(file);
    try {
      if (new Migrations(database).check() < Migrations.VERSION) {
        Store.open(directory, Clock.systemUTC()).close();
      }
      return new StoreReader(database);
    } catch (RuntimeException e) {
      database.close();
      throw e;
    }
  }

  /** Lets a journal be played back if nothing can be read before that. */
  private static void makeWhole(Path directory, Path file) {
    if (!HotJournal.mayBeBeside(file)) {
      return;
    }
    try (Database database = Database.reader(file)) {
      new Migrations(database).check();
    } catch (StoreException e) {
      if (!HotJournal.stopped(e)) {
        throw e;
      }
      Store.open(directory, Clock.systemUTC()).close();
    }
  }

  /** Every device that was recorded. */
  public List<Rig> rigs() {
    return tables.recordings.rigs();
  }

  /** Device ids of the rigs that made the cuts of a selection. */
  List<String> rigs(CutSelection selection) {
    return tables.cuts.rigs(selection);
  }

  /** Ids of the calibrations that give the forces of a selection. */
  List<String> calibrations(CutSelection selection) {
    return tables.cuts.calibrations(selection);
  }

  /** A recording. */
  public Optional<StoredRecording> recording(long id) {
    return tables.recordings.find(id);
  }

  /** The newest {@code limit} cuts of a selection, newest first. */
  public List<CutSummary> latest(CutSelection selection, int limit) {
    return tables.cuts.latest(selection, Optional.empty(), limit);
  }

  /** The page that follows {@code last}, the last row of the page before; newest first. */
  public List<CutSummary> latestBefore(CutSelection selection, CutSummary last, int limit) {
    return tables.cuts.latest(selection, Optional.of(last), limit);
  }

  /** What each cut of a session says of the edge, by id; cuts without a force are left out. */
  Map<Long, CutResult> cutResults(String session) {
    return tables.cuts.cutResults(CutSelection.all().inSession(session));
  }

  /** Number of cuts in a selection. */
  public long count(CutSelection selection) {
    return tables.cuts.count(selection);
  }

  /** A cut without its trace. */
  public Optional<CutSummary> summary(long cutId) {
    return tables.cuts.summary(cutId);
  }

  /**
   * A cut with its trace.
   *
   * @throws StoreException if its trace, a result or a force of it is damaged
   */
  public Optional<StoredCut> cut(long cutId) {
    return database.read(() -> tables.cuts.summary(cutId).map(this::whole));
  }

  /** Every result of a cut, oldest first; the last is the current one. */
  public List<Derivation> results(long cutId) {
    return tables.results.ofCut(cutId);
  }

  /** What was derived from a cut before what stands, oldest first. */
  public List<EarlierResult> earlier(long cutId) {
    List<EarlierResult> found = new ArrayList<>();
    List<Derivation> all = results(cutId);
    List<StoredForce> forces = forces(cutId);
    for (int i = 0; i < all.size(); i++) {
      int number = i + 1;
      Derivation result = all.get(i);
      boolean stands = number == all.size();
      List<StoredForce> own = forces.stream().filter(f -> f.resultId() == result.id()).toList();
      own.stream()
          .limit(stands ? Math.max(0, own.size() - 1) : own.size())
          .forEach(f -> found.add(new EarlierResult(number, stands, result, Optional.of(f))));
      if (own.isEmpty() && !stands) {
        found.add(new EarlierResult(number, false, result, Optional.empty()));
      }
    }
    return found;
  }

  /** Every force of a cut, of all its results, oldest first. */
  public List<StoredForce> forces(long cutId) {
    return tables.forces.ofCut(cutId);
  }

  /** Every calibration, in the order stored. */
  public List<StoredCalibration> calibrations() {
    return database.read(tables.calibrations::all);
  }

  /** The calibration of an id. */
  public Optional<StoredCalibration> calibration(String id) {
    return database.read(() -> tables.calibrations.find(id));
  }

  /** One's own calibration stored last for a device, else one's own stored last for any. */
  public Optional<StoredCalibration> currentCalibration(String deviceId) {
    return database.read(() -> tables.calibrations.current(deviceId));
  }

  /** Everything that was taken in from elsewhere, in that order. */
  public List<Origin.Taken> origins() {
    return tables.origins.all();
  }

  /** Where a cut came from; empty if this store recorded it. */
  public Optional<Origin.Taken> originOfCut(long cutId) {
    return tables.origins.ofCut(cutId);
  }

  /** Whose work a cut is; empty if it came with no package. */
  public Optional<Credit> creditOfCut(long cutId) {
    return tables.origins.creditOfCut(cutId);
  }

  /** Whose work each cut is that came with a package of others, by the cut's id. */
  public Map<Long, Credit.Of> creditsOfCuts() {
    return tables.origins.creditsOfCuts();
  }

  /** Whose work a session is; empty if it is one's own. */
  public Optional<Credit.Of> creditOfSession(String name) {
    return tables.origins.ofSession(name);
  }

  /** Every cut that has more than one result, or a result with more than one force. */
  public Set<Long> derivedAgain() {
    return tables.results.derivedAgain();
  }

  /** Every cut that was ever set aside. */
  public Set<Long> everSetAside() {
    return tables.stageEntries.everSetAside();
  }

  /** How a cut was set aside and counted again, in order. */
  public List<SetAside> setAsideActs(long cutId) {
    return tables.stageEntries.acts(cutId);
  }

  /** Verifications with a calibration, oldest first. */
  public List<Verification> verificationsOf(String calibrationId) {
    return tables.evidence.ofCalibration(calibrationId);
  }

  /** Verifications of a rig with calibrations of one's own, oldest first. */
  public List<Verification> verifications(String deviceId) {
    return tables.evidence.verifications(deviceId);
  }

  /** Other evidence of one kind about a rig, oldest first. */
  public List<Evidence> evidence(String deviceId, String kind) {
    return tables.evidence.evidence(deviceId, kind);
  }

  /** The newest of it. */
  public Optional<Evidence> lastEvidence(String deviceId, String kind) {
    return evidence(deviceId, kind).stream().reduce((earlier, later) -> later);
  }

  /** The journal as seen through this reader. */
  public JournalReader journal() {
    return journal;
  }

  /**
   * Gives every cut of a selection, in the order in which they were stored, in constant memory.
   * Cuts that are added meanwhile may be given too.
   */
  public void forEachSummary(CutSelection selection, Consumer<CutSummary> consumer) {
    long last = 0;
    List<CutSummary> page = tables.cuts.after(selection, last, PAGE);
    while (!page.isEmpty()) {
      page.forEach(consumer);
      last = page.get(page.size() - 1).id();
      page = tables.cuts.after(selection, last, PAGE);
    }
  }

  /**
   * Gives every cut of a selection with its trace, as {@link #forEachSummary}.
   *
   * @throws StoreException if a cut or its trace is damaged; those before it have been given
   */
  public void forEachCut(CutSelection selection, Consumer<StoredCut> consumer) {
    forEachSummary(selection, s -> consumer.accept(whole(s)));
  }

  private StoredCut whole(CutSummary summary) {
    database.sums().requireSound(summary.id());
    Response response =
        summary
            .result()
            .responseId()
            .map(id -> used.computeIfAbsent(id, known -> stored(known)))
            .orElse(Response.unknown());
    return new StoredCut(summary, tables.cuts.trace(summary.id()), response);
  }

  private Response stored(String responseId) {
    return tables
        .responses
        .find(responseId)
        .map(StoredResponse::response)
        .orElse(Response.unknown());
  }

  /** Every response that was learned, in the order stored. */
  public List<StoredResponse> responses() {
    return database.read(tables.responses::all);
  }

  /** The response of an id. */
  public Optional<StoredResponse> response(String id) {
    return database.read(() -> tables.responses.find(id));
  }

  /** The response learned last of a rig at a nominal rate. */
  public Optional<StoredResponse> currentResponse(
      String deviceId, Optional<SampleRate> nominalRate) {
    return database.read(() -> tables.responses.latest(deviceId, nominalRate));
  }

  /**
   * Checks the whole store: SQLite's structure and references, and the checksum of every row and
   * trace; in constant memory.
   */
  public IntegrityReport verify(Watch watch) {
    return new IntegrityCheck(database, watch).run();
  }

  @Override
  public void close() {
    database.close();
  }
}
