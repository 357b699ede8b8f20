package snick.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;
import snick.force.budget.Calibration;
import snick.force.reading.RigSetting;
import snick.journal.Stage;
import snick.json.Json;
import snick.phrase.NotAccepted;
import snick.report.RecentFalls;
import snick.report.RecordPage;
import snick.report.plot.CalibrationPlot;
import snick.report.plot.ControlCharts;
import snick.report.plot.CutPlot;
import snick.report.plot.Picture;
import snick.report.plot.ProgressionPlot;
import snick.report.plot.ResponsePlot;
import snick.report.plot.StagePlot;
import snick.report.sheet.CalibrationRecord;
import snick.store.SessionEvidence;
import snick.store.StoreReader;
import snick.store.record.CutSelection;
import snick.store.record.CutSummary;
import snick.store.record.StoredCut;
import snick.store.record.Verification;
import snick.view.http.HttpAnswer;
import snick.view.http.Request;

/** Every plot of the command line, as SVG. Runs on the archive's thread. */
final class Pictures {
  private final Archive archive;

  Pictures(Archive archive) {
    this.archive = archive;
  }

  private HttpAnswer svg(Supplier<Picture> drawing) {
    return archive.run(() -> HttpAnswer.document("image/svg+xml", drawing.get().svg()));
  }

  /** The stages of a session side by side. */
  HttpAnswer progression(long session) {
    return svg(
        () -> {
          SessionEvidence evidence = archive.evidence(session);
          return ProgressionPlot.of(
              evidence.log().session(),
              evidence.stages(),
              archive.judge(evidence),
              archive.words());
        });
  }

  /** The cuts of one stage along the edge. */
  HttpAnswer stage(long session, String stage) {
    return svg(
        () -> {
          SessionEvidence evidence = archive.evidence(session);
          Stage chosen = evidence.log().stage(stage);
          List<CutSummary> cuts = new ArrayList<>();
          String name = evidence.log().session().name();
          reader().forEachSummary(CutSelection.all().inStage(name, chosen), cuts::add);
          return StagePlot.of(evidence.log().session(), chosen, cuts, archive.words());
        });
  }

  /** One cut. */
  HttpAnswer cut(long id) {
    return svg(
        () -> {
          StoredCut cut =
              reader()
                  .cut(id)
                  .orElseThrow(() -> new NotAccepted("refused.cut_not_in_store", "cut", id));
          return CutPlot.of(cut, CutPlot.calibration(reader(), cut.summary()), archive.words());
        });
  }

  /** Every calibration, the newest first. */
  HttpAnswer calibrations() {
    return archive.run(
        () -> {
          List<Object> lines = new ArrayList<>();
          reader().calibrations().forEach(stored -> lines.add(0, line(stored.calibration())));
          return HttpAnswer.json(200, Json.object("calibrations", lines));
        });
  }

  private static Map<String, Object> line(Calibration calibration) {
    return Json.object(
        "id", calibration.id(),
        "made", calibration.made().toString(),
        "device_id", calibration.boundTo().map(RigSetting::deviceId),
        "from_gf", calibration.range().from().gramForce(),
        "to_gf", calibration.range().to().gramForce());
  }

  /** A calibration: curve and what lies beside it. */
  HttpAnswer calibration(String id) {
    return svg(
        () -> {
          CalibrationRecord record = record(id);
          return CalibrationPlot.of(
              record.calibration(),
              record.evaluation().map(e -> e.deflections()).orElse(List.of()),
              archive.words());
        });
  }

  /** The record of a calibration as a page of its own. */
  HttpAnswer record(String id, Request request) {
    return archive.run(
        () -> {
          HttpAnswer.Whole page =
              HttpAnswer.document(
                  "text/html; charset=utf-8", RecordPage.of(record(id), archive.words()));
          return request.says("save") ? page.saved("calibration-" + number(id) + ".html") : page;
        });
  }

  /** Ids hold letters and digits; whatever else came in does not get into a file's name. */
  private static String number(String id) {
    return id.replaceAll("[^A-Za-z0-9.-]", "");
  }

  private CalibrationRecord record(String id) {
    return CalibrationRecord.of(
        reader()
            .calibration(id)
            .orElseThrow(() -> new NotAccepted("refused.no_such_calibration", "id", id)),
        reader());
  }

  /** The check masses of a rig on a control chart; nothing while they are too few for one. */
  HttpAnswer checks(Optional<String> device) {
    return archive.run(
        () -> {
          List<Verification> checks = device.map(reader()::verifications).orElse(List.of());
          return checks.size() < ControlCharts.FEWEST
              ? HttpAnswer.nothing()
              : HttpAnswer.document(
                  "image/svg+xml", ControlCharts.of(checks).picture(archive.words()).svg());
        });
  }

  /** How a rig answers a sudden fall; nothing while that is not known. */
  HttpAnswer response(Optional<String> device) {
    return archive.run(
        () ->
            device
                .flatMap(id -> RecentFalls.of(reader(), device))
                .filter(falls -> falls.response().shape().isPresent())
                .map(
                    falls ->
                        HttpAnswer.document(
                            "image/svg+xml",
                            ResponsePlot.of(
                                    falls.response(),
                                    falls.deviceId(),
                                    falls.samplesPerSecond(),
                                    archive.words())
                                .svg()))
                .orElseGet(HttpAnswer::nothing));
  }

  private StoreReader reader() {
    return archive.reader();
  }
}
