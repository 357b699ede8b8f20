package snick.store;

import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.Set;
import java.util.function.UnaryOperator;
import snick.cut.Cut;
import snick.force.budget.BudgetTerm;
import snick.force.budget.Calibration;
import snick.journal.Blade;
import snick.journal.CutPlacement;
import snick.journal.Entry;
import snick.journal.FilamentLot;
import snick.journal.Ledger;
import snick.journal.Session;
import snick.journal.SessionEntries;
import snick.journal.SessionLog;
import snick.journal.SetAside;
import snick.journal.Stage;
import snick.journal.StageEntry;
import snick.journal.name.Field;
import snick.phrase.NotAccepted;
import snick.store.database.Database;
import snick.store.record.Derivation;
import snick.store.record.EarlierResult;
import snick.store.record.HostClock;
import snick.store.record.NewCut;
import snick.store.record.Noted;
import snick.store.record.Origin;
import snick.store.record.Recording;
import snick.store.record.StoredCalibration;
import snick.store.record.StoredResponse;
import snick.store.record.Verification;
import snick.store.record.Version;
import snick.store.table.CalibrationTable;
import snick.store.table.NamedTable;

/**
 * Things from one origin being taken in, all in one transaction: see {@link Store#takeIn}. What is
 * there already is left as it is; what would contradict it is refused. Valid only inside that call.
 */
public final class Intake {
  private final Database database;
  private final Tables tables;
  private final Clock clock;
  private final long origin;
  private long newCuts;
  private long knownCuts;

  Intake(Database database, Clock clock, long origin) {
    this.database = database;
    tables = new Tables(database);
    this.clock = clock;
    this.origin = origin;
  }

  Origin.Outcome outcome() {
    return new Origin.Outcome(newCuts, knownCuts, false);
  }

  /** A recording, known by its device and start; its id in this store. */
  public long recording(Recording recording, Optional<HostClock> hostClock) {
    Optional<Long> there = tables.recordings.find(recording.deviceId(), recording.startedAt());
    if (there.isPresent()) {
      return there.get();
    }
    long id = tables.recordings.add(recording);
    hostClock.ifPresent(c -> tables.recordings.setClock(id, c));
    tables.origins.mark("recording", id, origin);
    return id;
  }

  /**
   * A calibration, kept apart from one's own: it gives no force to live cuts.
   *
   * @throws NotAccepted if the store has another one of this id
   */
  public void calibration(Calibration calibration, Optional<String> document) {
    Optional<StoredCalibration> there = tables.calibrations.find(calibration.id());
    if (there.isEmpty()) {
      tables.calibrations.add(calibration, document, clock.instant());
      tables.origins.mark(
          "calibration", CalibrationTable.numberOf(database, calibration.id()), origin);
    } else if (!figures(there.get().calibration()).equals(figures(calibration))) {
      throw new NotAccepted("refused.another_calibration", "id", calibration.id());
    }
  }

  /** A response that results were derived with; kept apart from those of one's own rigs. */
  public void response(StoredResponse stated) {
    tables.responses.add(stated);
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

  /** A cut that is the origin's own work. */
  public long cut(NewCut cut, int detectorVersion, List<EarlierResult> earlier) {
    return cut(cut, detectorVersion, 0, earlier);
  }

  /**
   * A cut as another program found it, known by its recording and number; its id in this store.
   *
   * @param detectorVersion version of the detector that found it
   * @param credit place of its credit among those of the origin
   * @param earlier what was derived from it before, oldest first
   * @throws NotAccepted if the recording has another cut of this number
   */
  public long cut(NewCut cut, int detectorVersion, int credit, List<EarlierResult> earlier) {
    Optional<Long> there = tables.cuts.find(cut.recordingId(), cut.cut().number());
    if (there.isPresent()) {
      return known(there.get(), cut.cut());
    }
    Derivation standing = new Derivation(detectorVersion, clock.instant(), cut.cut());
    Derivation first = earlier.isEmpty() ? standing : earlier.get(0).result();
    long id = tables.cuts.add(cut, first);
    OptionalLong later = add(id, earlier, standing);
    cut.force().ifPresent(force -> tables.forces.add(id, later, force, standing.createdAt()));
    tables.origins.markCut(id, origin, credit);
    newCuts++;
    return id;
  }

  /**
   * Adds to a new cut what was derived earlier and {@code standing}, if that is not among it; the
   * later result that stands, empty if the first does.
   */
  private OptionalLong add(long cutId, List<EarlierResult> earlier, Derivation standing) {
    boolean stands = earlier.isEmpty();
    int number = stands ? 0 : earlier.get(0).number();
    OptionalLong later = OptionalLong.empty();
    for (EarlierResult e : earlier) {
      if (e.number() != number) {
        number = e.number();
        later = OptionalLong.of(tables.results.add(cutId, e.result()));
      }
      OptionalLong of = later;
      e.force().ifPresent(f -> tables.forces.add(cutId, of, f.force(), f.createdAt()));
      stands |= e.stands();
    }
    return stands ? later : OptionalLong.of(tables.results.add(cutId, standing));
  }

  /** Whether a cut was taken in by this very call, so that all of it comes from this origin. */
  public boolean isNew(long cutId) {
    return tables.origins.ofCutIs(cutId, origin);
  }

  /**
   * A check of a calibration with a mass. One of a calibration of one's own is left out: it is no
   * evidence of one's own.
   */
  public void verification(Verification verification) {
    long calibration = CalibrationTable.numberOf(database, verification.calibrationId());
    if (tables.origins.isForeignCalibration(calibration)
        && !tables.evidence.ofCalibration(verification.calibrationId()).contains(verification)) {
      tables.evidence.add(verification);
    }
  }

  private long known(long id, Cut cut) {
    if (!tables.cuts.trace(id).equals(cut.trace())) {
      throw new NotAccepted("refused.another_trace", "cut", id);
    }
    knownCuts++;
    return id;
  }

  /** A blade, known by its label; its versions oldest first, one at least. */
  public void blade(List<Version<Blade>> versions) {
    named("blade", tables.blades, versions, Blade::facts);
  }

  /** The versions of what has a name; if it is here, {@code facts} of it must agree. */
  private <T> void named(
      String kind, NamedTable<T> table, List<Version<T>> versions, UnaryOperator<T> facts) {
    Version<T> first = versions.get(0);
    if (table.addNew(first.content(), recorded(first)).isPresent()) {
      later(versions).forEach(v -> table.correct(v.content(), v.why(), recorded(v)));
      return;
    }
    T stated = facts.apply(versions.get(versions.size() - 1).content());
    String name = table.name(stated);
    if (table.find(name).map(Entry::content).map(facts).filter(stated::equals).isEmpty()) {
      throw another(kind, name);
    }
  }

  private Instant recorded(Version<?> version) {
    return version.recorded().orElseGet(clock::instant);
  }

  private static <T> List<Version<T>> later(List<Version<T>> versions) {
    return versions.subList(1, versions.size());
  }

  private static NotAccepted another(String what, String name) {
    return new NotAccepted(
        "refused.another_of_that_name", "kind", Field.called(what), "name", name);
  }

  /** A filament lot, known by its name; its versions oldest first, one at least. */
  public void lot(List<Version<FilamentLot>> versions) {
    named("filament lot", tables.lots, versions, lot -> lot);
  }

  /**
   * A session with its stages, known by its name, blade and start; its versions oldest first, one
   * at least. One that is there already is left as it is. Its blades and lots must have been taken
   * in.
   *
   * @return whether it is new here
   * @throws NotAccepted if the journal has another one of this name
   */
  public boolean session(List<Version<Session>> versions, List<Stage> stages) {
    Session session = versions.get(versions.size() - 1).content();
    Optional<Session> there = tables.sessions.find(session.name()).map(e -> e.content());
    if (there.isPresent()) {
      if (!there.get().blade().equals(session.blade())
          || !there.get().opened().equals(session.opened())
          || !tables.sessions.stages(session.name()).equals(stages)) {
        throw another("session", session.name());
      }
      return false;
    }
    Version<Session> first = versions.get(0);
    tables.sessions.open(first.content(), recorded(first));
    later(versions).forEach(v -> tables.sessions.correct(v.content(), v.why(), recorded(v)));
    tables.origins.mark("session", tables.sessions.id(session.name()), origin);
    stages.forEach(stage -> tables.sessions.begin(session.name(), stage));
    return true;
  }

  /**
   * Entries of a session that is new here, in order, held to the rules of a session.
   *
   * @throws NotAccepted if entries and stages disagree, or a correction names what it may not
   */
  public void entries(Session session, List<Stage> stages, List<Noted> noted) {
    SessionEntries taken =
        new SessionEntries(
            new SessionLog(session.closed(Optional.empty()), stages, Ledger.empty(), List.of()));
    List<Entry<StageEntry>> made = new ArrayList<>();
    Set<Integer> corrected = new HashSet<>();
    for (Noted n : noted) {
      StageEntry content = n.version().content();
      Instant at = recorded(n.version());
      Entry<StageEntry> entry =
          n.corrects().isEmpty()
              ? tables.entries.add(at, content)
              : tables.entries.correct(earlier(made, n, corrected), at, n.version().why(), content);
      tables.stageEntries.add(session.name(), taken.take(entry), entry);
      made.add(entry);
    }
  }

  private static Entry<StageEntry> earlier(
      List<Entry<StageEntry>> made, Noted noted, Set<Integer> corrected) {
    int place = noted.corrects().getAsInt();
    if (!(place >= 1 && place <= made.size())) {
      throw new NotAccepted("refused.corrects_what_is_not_before", "place", place);
    }
    if (!corrected.add(place)) {
      throw new NotAccepted("refused.corrected_twice", "place", place);
    }
    return made.get(place - 1);
  }

  /**
   * The place of a cut in the journal; a cut that has one keeps it.
   *
   * @param placeMm distance from the heel, mm; empty if not noted
   */
  public void place(long cutId, Session session, Stage stage, Instant at, OptionalDouble placeMm) {
    if (tables.cuts.summary(cutId).orElseThrow().place().isEmpty()) {
      CutPlacement placement = new CutPlacement(at, stage.name(), cutId, placeMm);
      tables.stageEntries.add(
          session.name(), stage, tables.entries.add(clock.instant(), placement));
    }
  }

  /** Sets a cut aside, or lets it count again. */
  public void setAside(SetAside act) {
    tables.stageEntries.add(act);
  }
}
