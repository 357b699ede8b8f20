package snick.view;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.journal.EdgeSpan;
import snick.journal.Entry;
import snick.journal.Inspection;
import snick.journal.NextPlace;
import snick.journal.Photo;
import snick.journal.Place;
import snick.journal.Session;
import snick.journal.SessionLog;
import snick.journal.SharpeningStep;
import snick.journal.Stage;
import snick.json.Json;
import snick.phrase.Phrase;
import snick.store.JournalReader;
import snick.store.SessionEvidence;
import snick.store.record.CutSummary;
import snick.verdict.burr.StageEvidence;
import snick.verdict.comparison.Judge;

/**
 * A session as the page shows it. Pure.
 *
 * @param evidence the session with all that was noted
 * @param cuts its cuts, in order
 * @param judge what its verdicts are measured by
 * @param verdicts finds a stage's figures and verdict
 */
record SessionJson(
    SessionEvidence evidence, List<CutSummary> cuts, Judge judge, StageVerdicts verdicts) {
  /** A session in a list. */
  static Map<String, Object> line(JournalReader journal, Session session) {
    return Json.object(
        "number", journal.sessionNumber(session.name()),
        "name", session.name(),
        "blade", session.blade(),
        "opened", session.opened().toString(),
        "closed", session.closed().map(Instant::toString));
  }

  /** The session on the bench: only the running stage lists its cuts. */
  Map<String, Object> object(long number) {
    return object(number, evidence.log().runningStage().map(this::cutsOf).orElse(List.of()));
  }

  /** The session with every cut. */
  Map<String, Object> whole(long number) {
    return object(number, cuts);
  }

  private Map<String, Object> object(long number, List<CutSummary> listed) {
    SessionLog log = evidence.log();
    EdgeSpan span = EdgeSpan.of(evidence.blade());
    Optional<Stage> running = log.runningStage();
    return Json.object(
        "number", number,
        "name", log.session().name(),
        "blade", evidence.blade().label(),
        "filament_lot", log.session().equipment().filamentLot(),
        "opened", log.session().opened().toString(),
        "closed", log.session().closed().map(Instant::toString),
        "edge_length_mm", span.lengthMm(),
        "edge_length_known", evidence.blade().edgeLengthMm().isPresent(),
        "running_stage", running.map(Stage::order),
        "suggested_place_mm", running.map(stage -> millimetres(evidence.nextPlace())),
        "coach", advice(),
        "margin_gf", judge.marginGf(),
        "margin_from", judge.marginFrom().map(verdicts::said),
        "cuts", listed.stream().map(CutJson::of).toList(),
        "stages", stages(),
        "outcome", verdicts.outcome(judge, evidence.stages()));
  }

  /** Cuts without a force cannot be judged, however many there are. */
  private String advice() {
    boolean blind = !cuts.isEmpty() && cuts.stream().allMatch(cut -> cut.force().isEmpty());
    return blind
        ? verdicts.said(Phrase.of("coach.calibrate"))
        : verdicts.advice(judge, evidence.stages(), evidence.nextPlace());
  }

  private static OptionalDouble millimetres(NextPlace next) {
    return next instanceof NextPlace.At at ? at.place().millimetres() : OptionalDouble.empty();
  }

  private List<Object> stages() {
    List<Object> stages = new ArrayList<>();
    Optional<StageEvidence> before = Optional.empty();
    for (StageEvidence now : evidence.stages()) {
      Map<String, Object> entry =
          Json.object(
              "order", now.stage().order(),
              "name", now.stage().name(),
              "cuts_made", cutsOf(now.stage()).size(),
              "inspections", inspections(now.stage()),
              "steps", steps(now.stage()));
      entry.putAll(verdicts.of(judge, before, now));
      stages.add(entry);
      before = Optional.of(now);
    }
    return stages;
  }

  private List<CutSummary> cutsOf(Stage stage) {
    return cuts.stream()
        .filter(cut -> cut.place().filter(p -> p.stage().order() == stage.order()).isPresent())
        .toList();
  }

  private List<Object> inspections(Stage stage) {
    List<Object> inspections = new ArrayList<>();
    for (Entry<?> entry : evidence.log().entries().standing()) {
      if (entry.content() instanceof Inspection inspection
          && inspection.stage().equals(stage.name())) {
        inspections.add(inspection(entry.id(), inspection));
      }
    }
    return inspections;
  }

  private List<Object> steps(Stage stage) {
    List<Object> steps = new ArrayList<>();
    for (Entry<?> entry : evidence.log().entries().standing()) {
      if (entry.content() instanceof SharpeningStep step && step.stage().equals(stage.name())) {
        Map<String, Object> object = StepJson.of(step);
        object.put("entry", entry.id());
        steps.add(object);
      }
    }
    return steps;
  }

  private static Map<String, Object> inspection(long entry, Inspection inspection) {
    return Json.object(
        "entry", entry,
        "at", inspection.at().toString(),
        "method", inspection.look().method().word(),
        "magnification", inspection.look().magnification(),
        "side", inspection.side().word(),
        "place", inspection.place().map(Place::word),
        "finding", inspection.finding().word(),
        "photo", inspection.photo().map(Photo::name),
        "note", inspection.note());
  }
}
