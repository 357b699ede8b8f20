package snick.view;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import snick.journal.Blade;
import snick.journal.EdgeSpan;
import snick.journal.Entry;
import snick.journal.Inspection;
import snick.journal.NextPlace;
import snick.journal.Place;
import snick.journal.SessionLog;
import snick.journal.Stage;
import snick.store.CutSummary;
import snick.verdict.StageEvidence;
import snick.verdict.StageEvidence.CutResult;

/**
 * A session as the page shows it. Pure.
 *
 * @param log the session with all that was noted
 * @param blade its blade
 * @param cuts its cuts, in order
 * @param verdicts finds a stage's figures and verdict
 */
record SessionJson(SessionLog log, Blade blade, List<CutSummary> cuts, StageVerdicts verdicts) {
  /** The whole session; only the running stage lists its cuts. */
  Map<String, Object> object() {
    EdgeSpan span = EdgeSpan.of(blade);
    Optional<Stage> running = log.runningStage();
    Optional<NextPlace> next = running.map(stage -> log.nextPlace(stage, span));
    List<StageEvidence> evidence = StageEvidence.of(log, results());
    return Json.object(
        "name", log.session().name(),
        "blade", blade.label(),
        "filament_lot", log.session().filamentLot(),
        "opened", log.session().opened().toString(),
        "edge_length_mm", span.lengthMm(),
        "edge_length_known", blade.edgeLengthMm().isPresent(),
        "running_stage", running.map(Stage::order),
        "suggested_place_mm", next.flatMap(SessionJson::millimetres),
        "coach", verdicts.advice(evidence, next),
        "cuts", running.map(this::cutsOf).orElse(List.of()).stream().map(CutJson::of).toList(),
        "stages", stages(evidence));
  }

  private static Optional<Double> millimetres(NextPlace next) {
    return next instanceof NextPlace.At at
        ? at.place().millimetres().stream().boxed().findFirst()
        : Optional.empty();
  }

  private Map<Long, CutResult> results() {
    Map<Long, CutResult> results = new HashMap<>();
    for (CutSummary cut : cuts) {
      cut.force()
          .map(stored -> stored.force().estimate())
          .flatMap(f -> CutResult.of(cut.result().outcome(), cut.result().flags(), f))
          .ifPresent(result -> results.put(cut.id(), result));
    }
    return results;
  }

  private List<Object> stages(List<StageEvidence> evidence) {
    List<Object> stages = new ArrayList<>();
    Optional<StageEvidence> before = Optional.empty();
    for (StageEvidence now : evidence) {
      Map<String, Object> entry = new LinkedHashMap<>();
      entry.put("order", now.stage().order());
      entry.put("name", now.stage().name());
      entry.put("cuts_made", cutsOf(now.stage()).size());
      entry.put("inspections", inspections(now.stage()));
      entry.putAll(verdicts.of(before, now));
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
    for (Entry<?> entry : log.entries().standing()) {
      if (entry.content() instanceof Inspection inspection
          && inspection.stage().equals(stage.name())) {
        inspections.add(inspection(entry.id(), inspection));
      }
    }
    return inspections;
  }

  private static Map<String, Object> inspection(long entry, Inspection inspection) {
    return Json.object(
        "entry", entry,
        "at", inspection.at().toString(),
        "method", inspection.method().word(),
        "magnification", inspection.magnification(),
        "side", inspection.side().word(),
        "place", inspection.place().map(Place::word),
        "finding", inspection.finding().word(),
        "note", inspection.note());
  }
}
