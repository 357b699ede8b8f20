package snick.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
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
import snick.view.bench.Bench;
import snick.view.http.HttpAnswer;
import snick.view.http.Request;

/** Every plot of the command line, as SVG. Runs on the archive's thread. */
final class Pictures {
  private final Archive archive;
  private final Bench.Rigs rigs;

  Pictures(Archive archive, Bench.Rigs rigs) {
    this.archive = archive;
    this.rigs = rigs;
  }

  /** The stages of a session side by side. */
  Picture progression(Request request) {
    SessionEvidence evidence = archive.evidence(request);
    return ProgressionPlot.of(
        evidence.measured(), evidence.stages(), archive.judge(evidence), archive.words());
  }

  /** The cuts of one stage along the edge. */
  Picture stage(Request request) {
    SessionEvidence evidence = archive.evidence(request);
    Stage chosen = evidence.log().stage(request.needed("stage"));
    List<CutSummary> cuts = new ArrayList<>();
    String name = evidence.log().session().name();
    reader().forEachSummary(CutSelection.all().inStage(name, chosen), cuts::add);
    return StagePlot.of(evidence.measured(), chosen, cuts, archive.words());
  }

  /** One cut. */
  Picture cut(Request request) {
    StoredCut cut =
        reader()
            .cut(request.number())
            .orElseThrow(
                () -> new NotAccepted("refused.cut_not_in_store", "cut", request.number()));
    return CutPlot.of(cut, CutPlot.calibration(reader(), cut.summary()), archive.words());
  }

  /** Every calibration, the newest first. */
  Map<String, Object> calibrations(Request request) {
    List<Object> lines = new ArrayList<>();
    reader().calibrations().forEach(stored -> lines.add(0, line(stored.calibration())));
    return Json.object("calibrations", lines);
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
  Picture calibration(Request request) {
    CalibrationRecord record = stored(request.parts().get(0));
    return CalibrationPlot.of(
        record.calibration(),
        record.evaluation().map(e -> e.deflections()).orElse(List.of()),
        archive.words());
  }

  /** The record of a calibration as a page of its own. */
  HttpAnswer record(Request request) {
    String id = request.parts().get(0);
    HttpAnswer.Whole page =
        HttpAnswer.document("text/html; charset=utf-8", RecordPage.of(stored(id), archive.words()));
    return request.says("save") ? page.saved("calibration-" + number(id) + ".html") : page;
  }

  /** Ids hold letters and digits; whatever else came in does not get into a file's name. */
  private static String number(String id) {
    return id.replaceAll("[^A-Za-z0-9.-]", "");
  }

  private CalibrationRecord stored(String id) {
    return CalibrationRecord.of(
        reader()
            .calibration(id)
            .orElseThrow(() -> new NotAccepted("refused.no_such_calibration", "id", id)),
        reader());
  }

  /** The check masses of a rig on a control chart; nothing while they are too few for one. */
  Optional<Picture> checks(Request request) {
    List<Verification> checks = device(request).map(reader()::verifications).orElse(List.of());
    return checks.size() < ControlCharts.FEWEST
        ? Optional.empty()
        : Optional.of(ControlCharts.of(checks).picture(archive.words()));
  }

  /** How a rig answers a sudden fall; nothing while that is not known. */
  Optional<Picture> response(Request request) {
    return device(request)
        .flatMap(id -> RecentFalls.of(reader(), Optional.of(id)))
        .filter(falls -> falls.response().shape().isPresent())
        .map(
            falls ->
                ResponsePlot.of(
                    falls.response(), falls.deviceId(), falls.samplesPerSecond(), archive.words()));
  }

  private Optional<String> device(Request request) {
    int rig = (int) Math.min(request.number(), Integer.MAX_VALUE);
    return rig < rigs.taps().size()
        ? rigs.scales().setting().apply(rig).map(RigSetting::deviceId)
        : Optional.empty();
  }

  private StoreReader reader() {
    return archive.reader();
  }
}
