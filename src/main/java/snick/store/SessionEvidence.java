package snick.store;

import java.util.List;
import java.util.Optional;
import snick.journal.Blade;
import snick.journal.EdgeSpan;
import snick.journal.NextPlace;
import snick.journal.Session;
import snick.journal.SessionLog;
import snick.journal.Stage;
import snick.phrase.NotAccepted;
import snick.store.record.CutForce;
import snick.store.record.CutSelection;
import snick.store.record.CutSummary;
import snick.verdict.burr.StageEvidence;
import snick.verdict.burr.StageEvidence.CutResult;

/**
 * A stored session as the verdicts need it.
 *
 * @param log all that was noted
 * @param instruments what it was measured with
 * @param blade its blade as it stands
 * @param stages evidence of each stage, in order
 */
public record SessionEvidence(
    SessionLog log, Instruments instruments, Blade blade, List<StageEvidence> stages) {
  public SessionEvidence {
    stages = List.copyOf(stages);
  }

  /**
   * What a session was measured with: as noted, else what its cuts say; both empty where neither
   * tells.
   *
   * @param rigs device ids
   * @param calibrations ids
   */
  public record Instruments(List<String> rigs, List<String> calibrations) {
    public Instruments {
      rigs = List.copyOf(rigs);
      calibrations = List.copyOf(calibrations);
    }

    private static Instruments of(StoreReader reader, Session session) {
      Session.Equipment noted = session.equipment();
      CutSelection cuts = CutSelection.all().inSession(session.name()).counting();
      return new Instruments(
          noted.rig().map(List::of).orElseGet(() -> reader.rigs(cuts)),
          noted.calibration().map(List::of).orElseGet(() -> reader.calibrations(cuts)));
    }
  }

  /**
   * The session called {@code name}.
   *
   * @throws NotAccepted if there is none
   */
  public static SessionEvidence read(StoreReader reader, String name) {
    SessionLog log =
        reader.journal().log(name).orElseThrow(() -> reader.journal().unknownSession(name));
    return new SessionEvidence(
        log,
        Instruments.of(reader, log.session()),
        reader.journal().blade(log.session().blade()).orElseThrow(),
        StageEvidence.of(log, reader.cutResults(name)));
  }

  /** The session; where it names no rig or no calibration, with that of its cuts if it is one. */
  public Session measured() {
    return log.session()
        .measuredWith(
            new Session.Equipment(
                log.session().equipment().filamentLot(),
                only(instruments.rigs()),
                only(instruments.calibrations())));
  }

  private static Optional<String> only(List<String> ids) {
    return ids.size() == 1 ? Optional.of(ids.get(0)) : Optional.empty();
  }

  /** What a cut says of the edge; empty unless the filament parted and there is a force. */
  public static Optional<CutResult> result(CutSummary cut) {
    return cut.force()
        .map(CutForce::estimate)
        .flatMap(f -> CutResult.of(cut.figures().outcome(), cut.figures().flags(), f));
  }

  /**
   * Evidence of the stage called {@code name}.
   *
   * @throws NotAccepted if there is none; the message lists those there are
   */
  public StageEvidence stage(String name) {
    return stages.get(log.stage(name).order() - 1);
  }

  /** The stage before {@code stage}; empty if it is the first. */
  public Optional<StageEvidence> before(StageEvidence stage) {
    int order = stage.stage().order();
    return order > 1 ? Optional.of(stages.get(order - 2)) : Optional.empty();
  }

  /** Evidence of the stage that runs, or ran last; empty before the first. */
  public Optional<StageEvidence> last() {
    return log.runningStage().map(stage -> stages.get(stage.order() - 1));
  }

  /** Where to cut next in the running stage; the middle of the edge before the first. */
  public NextPlace nextPlace() {
    EdgeSpan span = EdgeSpan.of(blade);
    Optional<Stage> running = log.runningStage();
    return running.map(stage -> log.nextPlace(stage, span)).orElseGet(() -> span.next(List.of()));
  }
}
