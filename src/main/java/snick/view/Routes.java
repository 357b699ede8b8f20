package snick.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snick.force.reading.RigSetting;
import snick.journal.Photo;
import snick.journal.name.SlipOfName;
import snick.json.Json;
import snick.live.BenchState;
import snick.live.RigState;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;
import snick.store.database.StoreException;
import snick.store.record.CutSelection;
import snick.store.record.CutSummary;
import snick.view.bench.Bench;
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
    JournalActs acts = all.journal();
    Archive archive = all.archive();
    this.bench = bench;
    this.board = board;
    get("/health", (request, parts) -> health());
    get("/metrics", (request, parts) -> metrics());
    get("/api/v1/openapi.json", (request, parts) -> description);
    get("/api/v1/state", state);
    get("/api/v1/ports", (request, parts) -> ports());
    get(
        "/api/v1/bench",
        (request, parts) -> HttpAnswer.of(200, "application/json", board.document()));
    get("/api/v1/events", events);
    get("/api/v1/cuts", (request, parts) -> cuts(request));
    get("/api/v1/cuts/{id}", (request, parts) -> cut(parts.get(0)));
    post("/api/v1/session/steps", (request, parts) -> acts.step(request.body()));
    post("/api/v1/sessions", (request, parts) -> acts.openSession(request.body()));
    post("/api/v1/session/close", (request, parts) -> acts.closeSession(request.body()));
    post("/api/v1/session/stages", (request, parts) -> acts.beginStage(request.body()));
    post("/api/v1/session/inspections", (request, parts) -> acts.inspect(request.body()));
    post(
        "/api/v1/sessions/{number}/inspections/{entry}/photo",
        (request, parts) -> acts.photo(number(parts), Request.whole(parts.get(1)), request.body()));
    get("/api/v1/photos/{name}", (request, parts) -> photo(parts.get(0)));
    post("/api/v1/session/next-place", (request, parts) -> acts.choosePlace(request.body()));
    post("/api/v1/session/undo", (request, parts) -> acts.undo(request.body()));
    post("/api/v1/cuts/{id}/place", (request, parts) -> acts.place(number(parts), request.body()));
    post(
        "/api/v1/cuts/{id}/set-aside",
        (request, parts) -> acts.setAside(number(parts), request.body()));
    mending(all.mending());
    archive(archive);
    pictures(new Pictures(archive));
    blades(new BladePages(bench, archive));
    works(all.works());
  }

  private void blades(BladePages pages) {
    get("/api/v1/blades", (request, parts) -> pages.blades());
    get("/api/v1/blades/history", (request, parts) -> pages.history(request));
    get("/api/v1/blades/history.svg", (request, parts) -> pages.picture(request));
  }

  private void works(RigWorks works) {
    String rig = "/api/v1/rigs/{rig}";
    post(rig + "/calibration", (request, parts) -> works.calibrate(number(parts), request.body()));
    post(rig + "/check", (request, parts) -> works.check(number(parts), request.body()));
    post(rig + "/look", (request, parts) -> works.look(number(parts), request.body()));
    post(rig + "/work/confirm", (request, parts) -> works.confirm(number(parts), request.body()));
    post(rig + "/work/stop", (request, parts) -> works.stop(number(parts), request.body()));
  }

  private void mending(MendingActs acts) {
    String session = "/api/v1/sessions/{number}";
    post(session + "/reopen", (request, parts) -> acts.reopen(number(parts), request.body()));
    post(session + "/rename", (request, parts) -> acts.rename(number(parts), request.body()));
    post(session + "/blade", (request, parts) -> acts.changeBlade(number(parts), request.body()));
    post(
        session + "/filament-lot",
        (request, parts) -> acts.changeLot(number(parts), request.body()));
    post(
        session + "/stages/rename",
        (request, parts) -> acts.renameStage(number(parts), request.body()));
    post(
        session + "/stages/merge",
        (request, parts) -> acts.mergeStage(number(parts), request.body()));
    post(
        session + "/entries/{entry}/withdraw",
        (request, parts) ->
            acts.withdraw(number(parts), Request.whole(parts.get(1)), request.body()));
    post("/api/v1/cuts/{id}/move", (request, parts) -> acts.moveCut(number(parts), request.body()));
    post(
        "/api/v1/cuts/{id}/count-again",
        (request, parts) -> acts.countAgain(number(parts), request.body()));
    post("/api/v1/blades/rename", (request, parts) -> acts.renameBlade(request.body()));
    post("/api/v1/blades/merge", (request, parts) -> acts.mergeBlade(request.body()));
    post("/api/v1/blades/margin", (request, parts) -> acts.margin(request.body()));
    post("/api/v1/blades/steel", (request, parts) -> acts.steel(request.body()));
    post("/api/v1/blades/edge-length", (request, parts) -> acts.edgeLength(request.body()));
  }

  private HttpAnswer ports() {
    List<String> read = bench.state().get().rigs().stream().map(RigState::port).toList();
    return HttpAnswer.json(
        200,
        Json.object(
            "ports",
            bench.rigs().ports().get().stream()
                .map(
                    port ->
                        Json.object(
                            "port", port.path(),
                            "description", port.description(),
                            "in_use", read.contains(port.path())))
                .toList()));
  }

  private void archive(Archive archive) {
    String session = "/api/v1/sessions/{number}";
    get("/api/v1/sessions", (request, parts) -> archive.sessions(request));
    get("/api/v1/steps", (request, parts) -> archive.recentSteps());
    get(session, (request, parts) -> archive.session(number(parts)));
    get(session + "/comparison", (request, parts) -> archive.comparison(number(parts), request));
    get(session + "/report", (request, parts) -> archive.report(number(parts), request));
    get(session + "/package", (request, parts) -> archive.exported(number(parts), request));
  }

  private void pictures(Pictures pictures) {
    get(
        "/api/v1/sessions/{number}/progression.svg",
        (request, parts) -> pictures.progression(number(parts)));
    get(
        "/api/v1/sessions/{number}/stage.svg",
        (request, parts) -> pictures.stage(number(parts), request.needed("stage")));
    get("/api/v1/cuts/{id}/cut.svg", (request, parts) -> pictures.cut(number(parts)));
    get("/api/v1/calibrations", (request, parts) -> pictures.calibrations());
    get("/api/v1/rigs/{rig}/response.svg", (request, parts) -> pictures.response(device(parts)));
    get("/api/v1/rigs/{rig}/checks.svg", (request, parts) -> pictures.checks(device(parts)));
    get(
        "/api/v1/calibrations/{id}/curve.svg",
        (request, parts) -> pictures.calibration(parts.get(0)));
    get(
        "/api/v1/calibrations/{id}/record",
        (request, parts) -> pictures.record(parts.get(0), request));
  }

  private Optional<String> device(List<String> parts) {
    int rig = (int) Math.min(number(parts), Integer.MAX_VALUE);
    return rig < bench.rigs().taps().size()
        ? bench.rigs().scales().setting().apply(rig).map(RigSetting::deviceId)
        : Optional.empty();
  }

  private static long number(List<String> parts) {
    return Request.whole(parts.get(0));
  }

  private void get(String template, Route.Act act) {
    routes.add(new Route("GET", template, act));
  }

  private void post(String template, Route.Act act) {
    routes.add(new Route("POST", template, act));
  }

  /** All routes. */
  List<Route> all() {
    return List.copyOf(routes);
  }

  /** The answer to {@code request}; empty if no path fits. */
  Optional<HttpAnswer> answer(Request request) {
    List<Route> here = routes.stream().filter(r -> r.match(request.path()).isPresent()).toList();
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
      return route.act().answer(request, route.match(request.path()).orElseThrow());
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
              Phrase.of(
                  "fault.page_failed",
                  "what",
                  request.method() + " " + request.path(),
                  "error",
                  e));
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

  private HttpAnswer cuts(Request request) {
    int limit = (int) request.number("limit", USUAL_CUTS, 1, MOST_CUTS);
    return board.run(
        () ->
            HttpAnswer.json(
                200, Json.object("cuts", page(request, limit).stream().map(CutJson::of).toList())));
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

  private HttpAnswer cut(String idText) {
    long id = Request.whole(idText);
    return board.run(
        () ->
            bench
                .reader()
                .cut(id)
                .<HttpAnswer>map(cut -> HttpAnswer.json(200, CutJson.of(cut)))
                .orElseGet(() -> HttpAnswer.problem(404, "refused.cut_not_in_store", "cut", id)));
  }
}
