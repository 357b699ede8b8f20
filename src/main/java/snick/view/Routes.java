package snick.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import snick.journal.NotAccepted;
import snick.journal.SlipOfName;
import snick.store.CutSelection;
import snick.store.CutSummary;
import snick.store.StoreException;

/** Everything that is served for programs, described by {@code openapi.json}. */
final class Routes {
  private static final int MOST_CUTS = 500;
  private static final int USUAL_CUTS = 50;

  private final List<Route> routes = new ArrayList<>();
  private final Bench bench;
  private final Board board;

  /** Routes that read from {@code board} and write by {@code acts}. */
  Routes(
      Bench bench,
      Board board,
      JournalActs acts,
      Route.Act state,
      Route.Act events,
      Answer.Whole description) {
    this.bench = bench;
    this.board = board;
    get("/health", (request, parts) -> health());
    get("/metrics", (request, parts) -> metrics());
    get("/api/v1/openapi.json", (request, parts) -> description);
    get("/api/v1/state", state);
    get("/api/v1/bench", (request, parts) -> Answer.of(200, "application/json", board.document()));
    get("/api/v1/events", events);
    get("/api/v1/cuts", (request, parts) -> cuts(request));
    get("/api/v1/cuts/{id}", (request, parts) -> cut(parts.get(0)));
    post("/api/v1/sessions", (request, parts) -> acts.openSession(request.body()));
    post("/api/v1/session/close", (request, parts) -> acts.closeSession(request.body()));
    post("/api/v1/session/stages", (request, parts) -> acts.beginStage(request.body()));
    post("/api/v1/session/inspections", (request, parts) -> acts.inspect(request.body()));
    post("/api/v1/session/next-place", (request, parts) -> acts.choosePlace(request.body()));
    post("/api/v1/session/undo", (request, parts) -> acts.undo(request.body()));
    post(
        "/api/v1/cuts/{id}/place",
        (request, parts) -> acts.place(id(parts.get(0)), request.body()));
    post(
        "/api/v1/cuts/{id}/set-aside",
        (request, parts) -> acts.setAside(id(parts.get(0)), request.body()));
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
  Optional<Answer> answer(Request request) {
    List<Route> here = routes.stream().filter(r -> r.match(request.path()).isPresent()).toList();
    String method = request.method().equals("HEAD") ? "GET" : request.method();
    Optional<Route> route = here.stream().filter(r -> r.method().equals(method)).findFirst();
    if (route.isPresent()) {
      return Optional.of(act(route.get(), request));
    }
    return here.isEmpty()
        ? Optional.empty()
        : Optional.of(
            Answer.problem(
                405,
                "use " + here.stream().map(Route::method).collect(Collectors.joining(" or "))));
  }

  private Answer act(Route route, Request request) {
    try {
      return route.act().answer(request, route.match(request.path()).orElseThrow());
    } catch (SlipOfName e) {
      return Answer.question(e.getMessage(), e.near());
    } catch (NotAccepted e) {
      return Answer.problem(422, e.getMessage());
    } catch (StoreException e) {
      return Answer.problem(503, e.getMessage());
    } catch (RuntimeException e) {
      bench.complain().accept(request.method() + " " + request.path() + " failed: " + e);
      return Answer.problem(500, "an error of this program: " + e + "; it is noted as a fault");
    }
  }

  private Answer.Whole health() {
    BenchState now = bench.state().get();
    int status = now.recording() && now.storing() ? 200 : 503;
    return Answer.of(status, "application/json", HealthJson.of(now));
  }

  private Answer.Whole metrics() {
    return Answer.of(200, "text/plain; version=0.0.4; charset=utf-8", bench.metrics().scrape());
  }

  private Answer.Whole cuts(Request request) {
    int limit =
        (int) request.parameter("limit").map(Routes::id).orElse((long) USUAL_CUTS).longValue();
    if (!(limit >= 1 && limit <= MOST_CUTS)) {
      throw new NotAccepted("limit " + limit + " is outside 1 to " + MOST_CUTS);
    }
    return board.run(
        () ->
            Answer.json(
                200, Json.object("cuts", page(request, limit).stream().map(CutJson::of).toList())));
  }

  private List<CutSummary> page(Request request, int limit) {
    Optional<Long> before = request.parameter("before").map(Routes::id);
    if (before.isEmpty()) {
      return bench.reader().latest(CutSelection.all(), limit);
    }
    CutSummary last =
        bench
            .reader()
            .summary(before.get())
            .orElseThrow(() -> new NotAccepted("cut " + before.get() + " is not in the store"));
    return bench.reader().latestBefore(CutSelection.all(), last, limit);
  }

  private Answer.Whole cut(String idText) {
    long id = id(idText);
    return board.run(
        () ->
            bench
                .reader()
                .cut(id)
                .map(cut -> Answer.json(200, CutJson.of(cut)))
                .orElseGet(() -> Answer.problem(404, "cut " + id + " is not in the store")));
  }

  private static long id(String text) {
    if (!text.matches("\\d{1,15}")) {
      throw new NotAccepted("a whole number is needed here");
    }
    return Long.parseLong(text);
  }
}
