package snick.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import snick.force.budget.Calibration;
import snick.journal.FilamentLot;
import snick.journal.Session;
import snick.report.plot.CutPlot;
import snick.report.plot.StageForces;
import snick.store.SessionEvidence;
import snick.store.StoreReader;
import snick.store.record.CutSelection;
import snick.store.record.CutSummary;
import snick.store.record.StoredCut;
import snick.store.record.Verification;
import snick.verdict.burr.StageEvidence;
import snick.verdict.comparison.Judge;
import snick.verdict.comparison.Progression;
import snick.verdict.statistic.Readings;

/**
 * All that a report tells of a session.
 *
 * @param evidence what the verdicts see
 * @param judge margin and rig
 * @param lot filament lot, if noted
 * @param cuts every cut of the session in the order made, those set aside too
 * @param example the last cut that counts and has a force, with its trace
 * @param calibrations those that its forces came from
 * @param checks of its rig with known mass, up to the session's end, oldest first
 */
record SessionStory(
    SessionEvidence evidence,
    Judge judge,
    Optional<FilamentLot> lot,
    List<CutSummary> cuts,
    Optional<StoredCut> example,
    List<Calibration> calibrations,
    List<Verification> checks) {
  SessionStory {
    cuts = List.copyOf(cuts);
    calibrations = List.copyOf(calibrations);
    checks = List.copyOf(checks);
  }

  static SessionStory read(StoreReader store, SessionEvidence evidence, Judge judge) {
    Session session = evidence.measured();
    List<CutSummary> cuts = new ArrayList<>();
    store.forEachSummary(CutSelection.all().inSession(session.name()), cuts::add);
    return new SessionStory(
        evidence,
        judge,
        session.equipment().filamentLot().flatMap(store.journal()::filamentLot),
        cuts,
        example(store, cuts),
        cuts.stream().flatMap(c -> CutPlot.calibration(store, c).stream()).distinct().toList(),
        session.equipment().rig().map(rig -> checks(store, rig, session)).orElse(List.of()));
  }

  private static Optional<StoredCut> example(StoreReader store, List<CutSummary> cuts) {
    List<CutSummary> good =
        cuts.stream().filter(c -> c.setAside().isEmpty() && StageForces.of(c).isPresent()).toList();
    return good.isEmpty()
        ? Optional.empty()
        : store.cut(good.get(good.size() - 1).id()).filter(cut -> cut.trace().size() > 0);
  }

  private static List<Verification> checks(StoreReader store, String rig, Session session) {
    Predicate<Verification> before =
        v -> session.closed().isEmpty() || !v.at().isAfter(session.closed().get());
    return store.verifications(rig).stream().filter(before).toList();
  }

  /** The check mass last put on before the session ended. */
  Optional<Verification> lastCheck() {
    return checks.isEmpty() ? Optional.empty() : Optional.of(checks.get(checks.size() - 1));
  }

  Session session() {
    return evidence.measured();
  }

  List<StageEvidence> stages() {
    return evidence.stages();
  }

  /** Forces of the stages with two cuts or more, in order. */
  List<Readings> comparable() {
    return stages().stream()
        .flatMap(stage -> stage.readings().stream())
        .filter(readings -> readings.count() >= 2)
        .toList();
  }

  /** The stages against one another; empty with fewer than two that can be compared. */
  Optional<Progression> progression() {
    List<Readings> readings = comparable();
    return readings.size() < 2 ? Optional.empty() : Optional.of(Progression.of(readings, judge));
  }

  /** The calibration of the example. */
  Optional<Calibration> calibrationOf(StoredCut cut) {
    return CutPlot.id(cut.summary())
        .flatMap(id -> calibrations.stream().filter(c -> c.id().equals(id)).findFirst());
  }
}
