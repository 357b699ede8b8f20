package snick.store;

import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import snick.cut.Cut;
import snick.force.BudgetTerm;
import snick.force.Calibration;
import snick.journal.Blade;
import snick.journal.CutPlacement;
import snick.journal.FilamentLot;
import snick.journal.NotAccepted;
import snick.journal.Session;
import snick.journal.SetAside;
import snick.journal.Stage;
import snick.journal.StageEntry;

/**
 * Things from one origin being taken in, all in one transaction: see {@link Store#takeIn}. What is
 * there already is left as it is; what would contradict it is refused. Valid only inside that call.
 */
public final class Intake {
  private final Database database;
  private final Clock clock;
  private final long origin;
  private final OriginTable origins;
  private final RecordingTable recordings;
  private final CutTable cuts;
  private final CalibrationTable calibrations;
  private final BladeTable blades;
  private final FilamentLotTable lots;
  private final SessionTable sessions;
  private final StageEntryTable stageEntries;
  private long newCuts;
  private long knownCuts;

  Intake(Database database, Clock clock, long origin) {
    this.database = database;
    this.clock = clock;
    this.origin = origin;
    origins = new OriginTable(database);
    recordings = new RecordingTable(database);
    cuts = new CutTable(database);
    calibrations = new CalibrationTable(database);
    blades = new BladeTable(database);
    lots = new FilamentLotTable(database);
    sessions = new SessionTable(database);
    stageEntries = new StageEntryTable(database);
  }

  Origin.Outcome outcome() {
    return new Origin.Outcome(newCuts, knownCuts, false);
  }

  /** A recording, known by its device and start; its id in this store. */
  public long recording(Recording recording, Optional<HostClock> hostClock) {
    OptionalLong there = recordings.find(recording.deviceId(), recording.startedAt());
    if (there.isPresent()) {
      return there.getAsLong();
    }
    long id = recordings.add(recording);
    hostClock.ifPresent(c -> recordings.setClock(id, c));
    origins.mark("recording", id, origin);
    return id;
  }

  /**
   * A calibration, kept apart from one's own: it gives no force to live cuts.
   *
   * @throws NotAccepted if the store has another one of this id
   */
  public void calibration(Calibration calibration, Optional<String> document) {
    Optional<StoredCalibration> there = calibrations.find(calibration.id());
    if (there.isEmpty()) {
      calibrations.add(calibration, document, clock.instant());
      origins.mark("calibration", CalibrationTable.numberOf(database, calibration.id()), origin);
    } else if (!figures(there.get().calibration()).equals(figures(calibration))) {
      throw new NotAccepted(
          "the store has another calibration "
              + calibration.id()
              + ": ask the sender for a new id");
    }
  }

  /** The calibration without the texts for people, which a sender may have left out. */
  private static Calibration figures(Calibration c) {
    List<BudgetTerm> terms =
        c.terms().stream()
            .map(
                t ->
                    new BudgetTerm(
                        t.source(),
                        t.distribution(),
                        t.absolute(),
                        t.relative(),
                        t.degreesOfFreedom(),
                        ""))
            .toList();
    return new Calibration(
        c.id(), c.boundTo(), c.made(), c.validFor(), c.curve(), c.range(), terms, "");
  }

  /**
   * A cut as another program found it, known by its recording and number; its id in this store.
   *
   * @param detectorVersion version of the detector that found it
   * @throws NotAccepted if the recording has another cut of this number
   */
  public long cut(NewCut cut, int detectorVersion) {
    OptionalLong there = cuts.find(cut.recordingId(), cut.cut().number());
    if (there.isPresent()) {
      return known(there.getAsLong(), cut.cut());
    }
    Instant now = clock.instant();
    long id = cuts.add(cut.recordingId(), cut.occurredAt(), cut.cut());
    long result = new ResultTable(database).add(id, detectorVersion, cut.cut(), now);
    cut.force().ifPresent(force -> new ForceTable(database).add(result, force, now));
    origins.mark("cut", id, origin);
    newCuts++;
    return id;
  }

  private long known(long id, Cut cut) {
    if (!cuts.trace(id).equals(cut.trace())) {
      throw new NotAccepted(
          "the store has this cut as cut "
              + id
              + " with another trace: one of the two was changed");
    }
    knownCuts++;
    return id;
  }

  /** A blade, known by its label. */
  public void blade(Blade blade) {
    Optional<Blade> there = blades.find(blade.label()).map(e -> e.content());
    if (there.isEmpty()) {
      blades.add(blade, clock.instant());
    } else if (!withoutNotes(there.get()).equals(withoutNotes(blade))) {
      throw another("blade", blade.label());
    }
  }

  private static Blade withoutNotes(Blade b) {
    return new Blade(
        b.label(),
        b.steel(),
        b.hardnessHrc(),
        b.edgeAngleDegrees(),
        b.thicknessBehindEdgeMm(),
        b.edgeLengthMm(),
        "");
  }

  private static NotAccepted another(String what, String name) {
    return new NotAccepted(
        "the journal has another "
            + what
            + " '"
            + name
            + "': take these in under other names, as with --as theirs");
  }

  /** A filament lot, known by its name. */
  public void lot(FilamentLot lot) {
    Optional<FilamentLot> there = lots.find(lot.lot()).map(e -> e.content());
    if (there.isEmpty()) {
      lots.add(lot, clock.instant());
    } else if (!there.get().equals(lot)) {
      throw another("filament lot", lot.lot());
    }
  }

  /**
   * A session with its stages and entries, known by its name, blade and start. One that is there
   * already is left as it is. Its blade and lot must have been taken in.
   *
   * @throws NotAccepted if the journal has another one of this name, or entry and stages disagree
   */
  public void session(Session session, List<Stage> stages, List<StageEntry> entries) {
    Optional<Session> there = sessions.find(session.name()).map(e -> e.content());
    if (there.isPresent()) {
      if (!there.get().blade().equals(session.blade())
          || !there.get().opened().equals(session.opened())
          || !sessions.stages(session.name()).equals(stages)) {
        throw another("session", session.name());
      }
      return;
    }
    sessions.open(session, clock.instant());
    origins.mark("session", sessions.id(session.name()), origin);
    stages.forEach(stage -> sessions.begin(session.name(), stage));
    entries.forEach(entry -> add(session.name(), stages, entry));
  }

  private void add(String session, List<Stage> stages, StageEntry entry) {
    Stage stage =
        stages.stream()
            .filter(s -> s.name().equals(entry.stage()))
            .findFirst()
            .orElseThrow(
                () ->
                    new NotAccepted("stage '" + entry.stage() + "' is not in session " + session));
    stageEntries.add(session, stage, new EntryTable(database).add(clock.instant(), entry));
  }

  /**
   * The place of a cut in the journal; a cut that has one keeps it.
   *
   * @param placeMm distance from the heel, mm; empty if not noted
   */
  public void place(long cutId, Session session, Stage stage, Instant at, OptionalDouble placeMm) {
    if (cuts.summary(cutId).orElseThrow().place().isEmpty()) {
      CutPlacement placement = new CutPlacement(at, stage.name(), cutId, placeMm);
      add(session.name(), List.of(stage), placement);
    }
  }

  /** Sets a cut aside, unless it is. */
  public void setAside(SetAside act) {
    if (cuts.summary(act.cut()).orElseThrow().setAside().isEmpty()) {
      stageEntries.add(act);
    }
  }
}
