package snick.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiFunction;
import java.util.function.Function;
import snick.journal.Photo;
import snick.journal.name.SlipOfName;
import snick.json.Json;
import snick.live.BenchState;
import snick.live.RigState;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;
import snick.report.plot.Picture;
import snick.store.database.StoreException;
import snick.store.record.CutSelection;
import snick.store.record.CutSummary;
import snick.view.bench.Bench;
import snick.view.http.Fields;
import snick.view.http.HttpAnswer;
import snick.view.http.Request;
import snick.view.http.Route;

/** Everything that is served for programs, described by {@code openapi.json}. */
final class Routes {
  private static final int MOST_CUTS = 500;
  private static final int USUAL_CUTS = 50;

  private final List<Route> routes = new ArrayList<>();
  private final Bench bench;
  private final Board board;
  private final Archive archive;

  /**
   * What can be asked and done.
   *
   * @param journal entries of the running session
   * @param mending corrections of what was entered
   * @param archive earlier sessions
   * @param works calibrations, checks and looks at a rig
   */
  record Acts(JournalActs journal, MendingActs mending, Archive archive, RigWorks works) {}

  /** Routes that read from {@code board} and write by {@code all}. */
  Routes(
      Bench bench,
      Board board,
      Acts all,
      Route.Act state,
      Route.Act events,
      HttpAnswer.Whole description) {
    this.bench = bench;
    this.board = board;
    this.archive = all.archive();
    get("/health", request -> health());
    get("/metrics", request -> metrics());
    get("/api/v1/openapi.json", request -> description);
    get("/api/v1/state", state);
    get("/api/v1/ports", request -> HttpAnswer.json(200, ports()));
    get("/api/v1/bench", request -> HttpAnswer.of(200, "application/json", board.document()));
    get("/api/v1/events", events);
    get("/api/v1/cuts", request -> board.run(() -> HttpAnswer.json(200, cuts(request))));
    get("/api/v1/cuts/{id}", request -> board.run(() -> cut(request.number())));
    get("/api/v1/photos/{name}", request -> photo(request.parts().get(0)));
    journal(all.journal());
    mending(all.mending());
    archive();
    pictures(new Pictures(archive, bench.rigs()));
    blades(new BladePages(bench, archive));
    works(all.works());
  }

  private void journal(JournalActs acts) {
    note("/api/v1/session/steps", acts::step);
    note("/api/v1/sessions", acts::openSession);
    note("/api/v1/session/close", acts::closeSession);
    note("/api/v1/session/stages", acts::beginStage);
    note("/api/v1/session/inspections", acts::inspect);
    post(
        "/api/v1/sessions/{number}/inspections/{entry}/photo",
        request -> board.change(() -> HttpAnswer.json(200, acts.photo(request))));
    note("/api/v1/session/next-place", acts::choosePlace);
    note("/api/v1/session/undo", acts::undo);
    change("/api/v1/cuts/{id}/place", acts::place);
    change("/api/v1/cuts/{id}/set-aside", acts::setAside);
  }

  private void blades(BladePages pages) {
    told("/api/v1/blades", pages::blades);
    told("/api/v1/blades/history", pages::history);
    drawn("/api/v1/blades/history.svg", of(pages::picture));
  }

  private void works(RigWorks works) {
    String rig = "/api/v1/rigs/{rig}";
    work(rig + "/calibration", works::calibrate);
    work(rig + "/check", works::check);
    work(rig + "/look", works::look);
    post(
        rig + "/work/confirm",
        request -> {
          request.fields(); // refuses what is no JSON, though nothing in it is asked for
          return HttpAnswer.json(200, works.confirm(request));
        });
    work(rig + "/work/stop", works::stop);
  }

  private void mending(MendingActs acts) {
    String session = "/api/v1/sessions/{number}";
    mend(session + "/reopen", acts::reopen);
    mend(session + "/rename", acts::rename);
    mend(session + "/blade", acts::changeBlade);
    mend(session + "/filament-lot", acts::changeLot);
    mend(session + "/stages/rename", acts::renameStage);
    mend(session + "/stages/merge", acts::mergeStage);
    mend(session + "/entries/{entry}/withdraw", acts::withdraw);
    mend("/api/v1/cuts/{id}/move", acts::moveCut);
    mend("/api/v1/cuts/{id}/count-again", acts::countAgain);
    mend("/api/v1/blades/rename", (request, fields) -> acts.renameBlade(fields));
    mend("/api/v1/blades/merge", (request, fields) -> acts.mergeBlade(fields));
    mend("/api/v1/blades/margin", (request, fields) -> acts.margin(fields));
    mend("/api/v1/blades/steel", (request, fields) -> acts.steel(fields));
    mend("/api/v1/blades/edge-length", (request, fields) -> acts.edgeLength(fields));
  }

  private void archive() {
    String session = "/api/v1/sessions/{number}";
    told("/api/v1/sessions", archive::sessions);
    told("/api/v1/steps", archive::recentSteps);
    told(session, archive::session);
    told(session + "/comparison", archive::comparison);
    get(session + "/report", request -> archive.run(() -> archive.report(request)));
    get(session + "/package", archive::exported);
  }

  private void pictures(Pictures pictures) {
    String calibration = "/api/v1/calibrations/{id}";
    drawn("/api/v1/sessions/{number}/progression.svg", of(pictures::progression));
    drawn("/api/v1/sessions/{number}/stage.svg", of(pictures::stage));
    drawn("/api/v1/cuts/{id}/cut.svg", of(pictures::cut));
    told("/api/v1/calibrations", pictures::calibrations);
    drawn("/api/v1/rigs/{rig}/response.svg", pictures::response);
    drawn("/api/v1/rigs/{rig}/checks.svg", pictures::checks);
    drawn(calibration + "/curve.svg", of(pictures::calibration));
    get(calibration + "/record", request -> archive.run(() -> pictures.record(request)));
  }

  private static Function<Request, Optional<Picture>> of(Function<Request, Picture> drawing) {
    return drawing.andThen(Optional::of);
  }

  private void get(String template, Route.Act act) {
    routes.add(new Route("GET", template, act));
  }

  private void post(String template, Route.Act act) {
    routes.add(new Route("POST", template, act));
  }

  /** What is read on the archive's thread. */
  private void told(String template, Function<Request, Object> telling) {
    get(template, request -> archive.run(() -> HttpAnswer.json(200, telling.apply(request))));
  }

  /** What is drawn on the archive's thread, if there is anything to draw. */
  private void drawn(String template, Function<Request, Optional<Picture>> drawing) {
    get(
        template,
        request ->
            archive.run(
                () ->
                    drawing
                        .apply(request)
                        .map(picture -> HttpAnswer.document("image/svg+xml", picture.svg()))
                        .orElseGet(HttpAnswer::nothing)));
  }

  /** What a person sends, acted on by the board's thread, which then shows what has changed. */
  private void change(String template, BiFunction<Request, Fields, Object> act) {
    post(
        template,
        request -> {
          Fields fields = request.fields();
          return board.change(() -> HttpAnswer.json(200, act.apply(request, fields)));
        });
  }

  private void note(String template, Function<Fields, Object> act) {
    change(template, (request, fields) -> act.apply(fields));
  }

  private void mend(String template, BiFunction<Request, Fields, String> act) {
    change(template, (request, fields) -> Json.object("done", act.apply(request, fields)));
  }

  private void work(String template, BiFunction<Request, Fields, Object> act) {
    post(
        template,
        request -> {
          Fields fields = request.fields();
          return board.run(() -> HttpAnswer.json(200, act.apply(request, fields)));
        });
  }

  /** All routes. */
  List<Route> all() {
    return List.copyOf(routes);
  }

  /** The answer to {@code request}; empty if no path fits. */
  Optional<HttpAnswer> answer(Request request) {
    List<Route> here = routes.stream().filter(r -> r.match(request).isPresent()).toList();
    String method = request.method().equals("HEAD") ? "GET" : request.method();
    Optional<Route> route = here.stream().filter(r -> r.method().equals(method)).findFirst();
    if (route.isPresent()) {
      return Optional.of(act(route.get(), request));
    }
    return here.isEmpty()
        ? Optional.empty()
        : Optional.of(
            HttpAnswer.problem(
                405,
                "door.use",
                "methods",
                here.stream().map(Route::method).<Object>map(m -> m).toList()));
  }

  private HttpAnswer act(Route route, Request request) {
    try {
      return route.act().answer(route.match(request).orElseThrow());
    } catch (SlipOfName e) {
      return new HttpAnswer.Problem(409, e.why(), e.near());
    } catch (NotAccepted e) {
      return new HttpAnswer.Problem(422, e.why(), List.of());
    } catch (StoreException e) {
      return new HttpAnswer.Problem(503, e.why(), List.of());
    } catch (RuntimeException e) {
      bench
          .complain()
          .accept(
              Phrase.of("fault.page_failed")
                  .with("what", request.method() + " " + request.path())
                  .with("error", e));
      return HttpAnswer.problem(500, "door.own_error", "what", e);
    }
  }

  private HttpAnswer health() {
    BenchState now = bench.state().get();
    int status = now.recording() && now.storing() ? 200 : 503;
    return HttpAnswer.of(
        status, "application/json", HealthJson.of(now, bench.preferences().words()));
  }

  private HttpAnswer metrics() {
    return HttpAnswer.of(200, "text/plain; version=0.0.4; charset=utf-8", bench.metrics().scrape());
  }

  private Map<String, Object> cuts(Request request) {
    int limit = (int) request.number("limit", USUAL_CUTS, 1, MOST_CUTS);
    return Json.object("cuts", page(request, limit).stream().map(CutJson::of).toList());
  }

  private List<CutSummary> page(Request request, int limit) {
    Optional<Long> before = request.parameter("before").map(Request::whole);
    if (before.isEmpty()) {
      return bench.reader().latest(CutSelection.all(), limit);
    }
    CutSummary last =
        bench
            .reader()
            .summary(before.get())
            .orElseThrow(() -> new NotAccepted("refused.cut_not_in_store", "cut", before.get()));
    return bench.reader().latestBefore(CutSelection.all(), last, limit);
  }

  /** A photo as it was kept; its address says what is in it, so that it never changes. */
  private HttpAnswer photo(String name) {
    Optional<Photo> photo = Photo.named(name);
    return photo
        .flatMap(bench.reader().photos()::read)
        .<HttpAnswer>map(
            content ->
                HttpAnswer.of(200, photo.orElseThrow().kind().mediaType(), content)
                    .with("Cache-Control", "private, max-age=31536000, immutable"))
        .orElseGet(() -> HttpAnswer.problem(404, "door.no_photo"));
  }

  private HttpAnswer cut(long id) {
    return bench
        .reader()
        .cut(id)
        .<HttpAnswer>map(cut -> HttpAnswer.json(200, CutJson.of(cut)))
        .orElseGet(() -> HttpAnswer.problem(404, "refused.cut_not_in_store", "cut", id));
  }

  private Map<String, Object> ports() {
    List<String> read = bench.state().get().rigs().stream().map(RigState::port).toList();
    return Json.object(
        "ports",
        bench.rigs().ports().get().stream()
            .map(
                port ->
                    Json.object(
                        "port", port.path(),
                        "description", port.description(),
                        "in_use", read.contains(port.path())))
            .toList());
  }
}
