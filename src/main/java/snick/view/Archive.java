package snick.view;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import snick.exchange.write.ExportChoice;
import snick.exchange.write.Licence;
import snick.exchange.write.PackageExport;
import snick.json.Json;
import snick.phrase.NotAccepted;
import snick.phrase.Words;
import snick.report.SessionReport;
import snick.store.JournalReader;
import snick.store.SessionEvidence;
import snick.store.StoreReader;
import snick.store.database.Watch;
import snick.store.record.CutSelection;
import snick.store.record.CutSummary;
import snick.verdict.comparison.Judge;
import snick.view.bench.Bench;
import snick.view.bench.BenchJudge;
import snick.view.http.HttpAnswer;
import snick.view.http.Request;
import snick.view.http.Turn;

/**
 * What lies back: past sessions, their verdicts, reports and packages. Read on a thread of its own
 * by a reader of its own, so that a long report keeps nobody at the bench waiting.
 */
final class Archive {
  private static final int MOST_SESSIONS = 200;
  private static final int USUAL_SESSIONS = 20;
  private static final int STEPS_LOOKED_AT = 100;
  private static final int MOST_STEPS = 6;
  private static final long PATIENCE_SECONDS = 15;
  private static final long EXPORT_PATIENCE_SECONDS = 600;

  private final Bench bench;
  private final Turn turn;
  private final Turn exports;
  private final StageVerdicts verdicts;

  /**
   * What lies back.
   *
   * @param thread answers questions
   * @param exporting makes packages, which take their time
   */
  Archive(Bench bench, ExecutorService thread, ExecutorService exporting) {
    this.bench = bench;
    this.verdicts = new StageVerdicts(bench.preferences().words());
    this.turn = new Turn(thread, PATIENCE_SECONDS);
    this.exports = new Turn(exporting, EXPORT_PATIENCE_SECONDS);
  }

  /** Runs {@code act} on the archive's thread, with its reader. */
  HttpAnswer run(Callable<HttpAnswer> act) {
    return turn.run(act);
  }

  StoreReader reader() {
    return bench.doors().archive();
  }

  /** The language of the page. */
  Words words() {
    return bench.preferences().words();
  }

  private JournalReader journal() {
    return reader().journal();
  }

  /** The newest sessions, before one of a number or with a text in name or blade if asked. */
  Map<String, Object> sessions(Request request) {
    int limit = (int) request.number("limit", USUAL_SESSIONS, 1, MOST_SESSIONS);
    long before = request.number("before", Long.MAX_VALUE, 1, Long.MAX_VALUE);
    String text = request.text("text").map(String::strip).orElse("");
    return Json.object(
        "sessions",
        journal().sessionsBefore(before, text, limit).stream()
            .map(session -> SessionJson.line(journal(), session))
            .toList());
  }

  /** One session with every cut. */
  Map<String, Object> session(Request request) {
    SessionEvidence evidence = evidence(request);
    List<CutSummary> cuts = new ArrayList<>();
    reader().forEachSummary(CutSelection.all().inSession(name(evidence)), cuts::add);
    return new SessionJson(evidence, cuts, judge(evidence), verdicts).whole(request.number());
  }

  /** How the second of two stages differs from the first. */
  Map<String, Object> comparison(Request request) {
    SessionEvidence evidence = evidence(request);
    return verdicts.compare(
        judge(evidence),
        evidence.stage(request.needed("first")),
        evidence.stage(request.needed("second")));
  }

  /** The report as a page of its own. */
  HttpAnswer report(Request request) {
    SessionEvidence evidence = evidence(request);
    SessionReport report =
        SessionReport.of(
            reader(), name(evidence), judge(evidence), request.says("personal"), words());
    HttpAnswer.Whole page = HttpAnswer.document("text/html; charset=utf-8", report.html());
    return request.says("save") ? page.saved("report-" + request.number() + ".html") : page;
  }

  /** The session as a package for others; made beside other answers, by a reader of its own. */
  HttpAnswer exported(Request request) {
    return exports.run(
        () -> {
          try (StoreReader reader = StoreReader.open(bench.doors().folder())) {
            ExportChoice choice = choice(name(reader, request.number()), request);
            return HttpAnswer.of(200, "application/zip", zip(reader, choice))
                .saved("session-" + request.number() + ".zip");
          }
        });
  }

  private static ExportChoice choice(String session, Request request) {
    ExportChoice choice = ExportChoice.of(CutSelection.all().inSession(session));
    Optional<String> licence = request.text("licence");
    choice = licence.isPresent() ? choice.under(new Licence(licence.get())) : choice;
    Optional<String> title = request.text("title");
    choice = title.isPresent() ? choice.titled(title.get()) : choice;
    Optional<String> from = request.text("contributor");
    choice = from.isPresent() ? choice.from(from.get()) : choice;
    choice = request.says("photos") ? choice.with(ExportChoice.Wish.PHOTOS) : choice;
    return request.says("personal") ? choice.with(ExportChoice.Wish.PERSONAL) : choice;
  }

  private static byte[] zip(StoreReader reader, ExportChoice choice) throws IOException {
    Path folder = Files.createTempDirectory("snick-package-");
    Path file = folder.resolve("package.zip");
    try {
      new PackageExport(reader, choice, Watch.NONE).toZip(file);
      return Files.readAllBytes(file);
    } finally {
      Files.deleteIfExists(file);
      Files.delete(folder);
    }
  }

  /** The steps last used, the newest first, each but once. */
  Map<String, Object> recentSteps(Request request) {
    return Json.object(
        "steps",
        journal().latestSteps(STEPS_LOOKED_AT).stream()
            .map(StepJson::of)
            .distinct()
            .limit(MOST_STEPS)
            .toList());
  }

  SessionEvidence evidence(Request request) {
    return SessionEvidence.read(reader(), name(reader(), request.number()));
  }

  private static String name(StoreReader reader, long number) {
    return reader
        .journal()
        .sessionNumbered(number)
        .orElseThrow(() -> new NotAccepted("refused.no_session_number", "n", number));
  }

  private static String name(SessionEvidence evidence) {
    return evidence.log().session().name();
  }

  Judge judge(SessionEvidence evidence) {
    return BenchJudge.of(bench, reader(), evidence);
  }
}
