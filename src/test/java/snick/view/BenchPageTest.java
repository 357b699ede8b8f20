package snick.view;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.Socket;
import java.net.URI;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import snick.store.Store;
import snick.view.http.Doorkeeper;
import snick.view.http.Request;

/** The page over real HTTP. */
@Timeout(60)
class BenchPageTest {
  @TempDir Path folder;
  private TestBench bench;

  @BeforeEach
  void start() throws IOException {
    bench = new TestBench(folder);
  }

  @AfterEach
  void stop() {
    bench.close();
    assertThat(bench.complaints).isEmpty();
  }

  @Test
  void everyAnswerCarriesTheGuards() throws Exception {
    for (String path : List.of("/", "/page/bench.js", "/api/v1/state", "/no/such", "/metrics")) {
      HttpResponse<String> answer = bench.get(path);
      assertThat(answer.headers().firstValue("X-Content-Type-Options")).contains("nosniff");
      assertThat(answer.headers().firstValue("Content-Security-Policy").orElseThrow())
          .contains("default-src 'none'")
          .contains("script-src 'self'")
          .contains("frame-ancestors 'none'")
          .doesNotContain("unsafe");
      assertThat(answer.headers().firstValue("Access-Control-Allow-Origin")).isEmpty();
    }
  }

  @Test
  void aPhotoGoesToAnInspectionAndComesBackAsItIs() throws Exception {
    bench.post("sessions", "{\"blade\":\"kitchen-1\",\"first_stage\":\"as found\"}");
    String noted =
        bench
            .post(
                "session/inspections",
                "{\"method\":\"raking_light\",\"side\":\"left\",\"finding\":\"none\"}")
            .body();
    String path = "sessions/1/inspections/" + JSON.std.mapFrom(noted).get("entry") + "/photo";
    byte[] photo = {(byte) 0xFF, (byte) 0xD8, (byte) 0xFF, 1, 2, 3};
    assertThat(sent(path, "application/json", photo).statusCode()).isEqualTo(415);
    assertThat(sent(path, "image/jpeg", "no photo".getBytes(StandardCharsets.UTF_8)).statusCode())
        .isEqualTo(422);
    assertThat(sent(path, "image/jpeg", new byte[5 << 20]).statusCode()).isEqualTo(413);
    assertThat(sent(path, "image/jpeg", photo).statusCode()).isEqualTo(200);
    String name =
        bench
            .get("/api/v1/sessions/1")
            .body()
            .replaceAll("(?s).*\"photo\" ?: ?\"([^\"]+)\".*", "$1");
    HttpResponse<byte[]> back =
        bench.client.send(
            HttpRequest.newBuilder(URI.create(bench.address("/api/v1/photos/" + name))).build(),
            HttpResponse.BodyHandlers.ofByteArray());
    assertThat(back.headers().firstValue("Content-Type")).contains("image/jpeg");
    assertThat(back.body()).isEqualTo(photo);
    assertThat(bench.get("/api/v1/photos/..%2fsnick.db").statusCode()).isEqualTo(404);
  }

  private HttpResponse<String> sent(String path, String type, byte[] body) throws Exception {
    HttpRequest.Builder request =
        HttpRequest.newBuilder(URI.create(bench.address("/api/v1/" + path)))
            .header("Content-Type", type)
            .header(Doorkeeper.TOKEN_HEADER, bench.token())
            .POST(HttpRequest.BodyPublishers.ofByteArray(body));
    return bench.client.send(request.build(), HttpResponse.BodyHandlers.ofString());
  }

  @Test
  void thePageHasNoScriptOrStyleInItAndAsksForNothingElsewhere() throws Exception {
    String page = bench.get("/").body();
    assertThat(page)
        .doesNotContainPattern("<script(?![^>]* src=\"/)")
        .doesNotContain("<style", " style=", " onclick=", "http://", "https://");
  }

  @Test
  void noScriptMakesMarkupFromText() throws Exception {
    for (String name : PageFiles.SCRIPTS) {
      HttpResponse<String> script = bench.get("/page/" + name);
      assertThat(script.statusCode()).isEqualTo(200);
      assertThat(script.body())
          .doesNotContain(
              "innerHTML", "outerHTML", "insertAdjacentHTML", "document.write", "eval(");
    }
  }

  @Test
  void theTokenLiesWhereOnlyItsOwnerReadsIt() throws Exception {
    assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(bench.tokenFile())))
        .isEqualTo("rw-------");
    assertThat(bench.token()).hasSize(64);
    assertThat(bench.get("/").body()).contains(bench.token());
    bench.page.close();
    assertThat(bench.tokenFile()).doesNotExist();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "Host: evil.example",
        "Host: 127.0.0.1.nip.io",
        "Host: localhost.",
        "Host: localhost\r\nHost: evil.example",
        "X-Nothing: 1"
      })
  void aReboundNameGetsNothing(String headers) throws Exception {
    for (String path : List.of("/", "/api/v1/bench", "/api/v1/events", "/metrics")) {
      assertThat(raw("GET " + path + " HTTP/1.1\r\n" + headers + "\r\n"))
          .matches(text -> text.startsWith("HTTP/1.1 403") || text.startsWith("HTTP/1.1 400"))
          .doesNotContain(bench.token());
    }
  }

  @Test
  void aFormOnAnotherPageChangesNothing() throws Exception {
    String attack =
        String.join(
            "\r\n",
            "POST /api/v1/sessions HTTP/1.1",
            "Host: localhost",
            "Origin: http://evil.example",
            "Content-Type: application/x-www-form-urlencoded",
            "Content-Length: 13",
            "");
    assertThat(raw(attack, "{\"blade\":\"x\"}")).startsWith("HTTP/1.1 403");
    assertThat(bench.get("/api/v1/bench").body()).doesNotContain("\"session\"");
  }

  @Test
  void aProgramWithoutTheTokenChangesNothing() throws Exception {
    HttpRequest.Builder change =
        bench.change("sessions", "{\"blade\":\"x\"}").setHeader(Doorkeeper.TOKEN_HEADER, "guess");
    assertThat(send(change).statusCode()).isEqualTo(403);
    assertThat(bench.get("/api/v1/bench").body()).doesNotContain("\"session\"");
  }

  @Test
  void readingChangesNothing() throws Exception {
    bench.post("sessions", "{\"blade\":\"x\"}");
    String before = bench.get("/api/v1/bench").body();
    for (String path : paths("get")) {
      if (!path.endsWith("/events")) {
        bench.get(
            path.replaceAll("\\{\\w+\\}", "1") + "?name=x&blade=y&mm=3&reason=z&finding=none");
      }
    }
    for (String path : paths("post")) {
      if (paths("get").contains(path)) {
        continue;
      }
      assertThat(bench.get(path.replaceAll("\\{\\w+\\}", "1") + "?name=x").statusCode())
          .isIn(404, 405);
    }
    assertThat(bench.get("/api/v1/bench").body()).isEqualTo(before);
  }

  @Test
  void aBodyTooLongIsRefused() throws Exception {
    String body = "{\"blade\":\"" + "x".repeat(Request.BODY_LIMIT_BYTES) + "\"}";
    assertThat(bench.post("sessions", body).statusCode()).isEqualTo(413);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"", "[]", "null", "7", "{", "{\"blade\":7}", "{}", "{\"blade\":\"\\u0007\"}"})
  void nonsenseIsRefusedWithAReason(String body) throws Exception {
    HttpResponse<String> answer = bench.post("sessions", body);
    assertThat(answer.statusCode()).isEqualTo(422);
    assertThat(JSON.std.mapFrom(answer.body())).containsKeys("status", "detail");
  }

  @Test
  void anEveningOverHttp() throws Exception {
    assertThat(bench.post("session/inspections", light("left", "none")).statusCode())
        .isEqualTo(422);
    ok("sessions", "{\"blade\":\"petty\",\"name\":\"one\"}");
    assertThat(bench.post("sessions", "{\"blade\":\"other\"}").body()).contains("end it first");
    ok("session/next-place", "{\"mm\":35}");
    long cut = bench.cut(120);
    TestBench.await("the cut on the bench", () -> session().containsKey("cuts") && cuts() == 1);
    assertThat(text()).contains("\"place_mm\":35.0").doesNotContain("chosen_place_mm");
    ok("session/inspections", light("left", "burr_seen"));
    ok("session/stages", "{\"name\":\"stropped\",\"session\":\"one\"}");
    assertThat(session()).containsEntry("running_stage", 2);
    ok("cuts/" + cut + "/place", "{\"mm\":40}");
    ok("cuts/" + cut + "/set-aside", "{\"reason\":\"slipped\"}");
    assertThat(bench.get("/api/v1/cuts/" + cut).body())
        .contains("\"place_mm\":40.0", "\"set_aside_reason\":\"slipped\"", "\"trace\"");
    ok("session/close", "{}");
    assertThat(text()).doesNotContain("\"session\":{");
  }

  @Test
  void whatWasWithdrawnCanBeNotedAnewAndLotAndLengthCanBeMended() throws Exception {
    ok("sessions", "{\"blade\":\"petty\",\"first_stage\":\"as found\"}");
    String noted = bench.post("session/inspections", light("left", "burr_seen")).body();
    ok("sessions/1/entries/" + JSON.std.mapFrom(noted).get("entry") + "/withdraw", "{}");
    assertThat(bench.get("/api/v1/sessions/1").body()).doesNotContain("burr_seen\"");
    assertThat(undone()).isEqualTo("withdrawn: left: burr seen (raking light)");
    assertThat(bench.get("/api/v1/sessions/1").body()).contains("burr_seen\"");
    ok("blades/edge-length", "{\"blade\":\"petty\",\"edge_length_mm\":125}");
    assertThat(bench.get("/api/v1/sessions/1").body()).contains("\"edge_length_mm\":125.0");
    ok("sessions/1/filament-lot", "{}");
    assertThat(bench.post("sessions/1/filament-lot", "{\"filament_lot\":\"spool\"}").statusCode())
        .isEqualTo(422);
  }

  @Test
  void aCutMadeWithoutASessionIsTakenIntoTheOneThatIsOpen() throws Exception {
    long cut = bench.cut(120);
    ok("sessions", "{\"blade\":\"petty\",\"first_stage\":\"as found\",\"name\":\"evening\"}");
    assertThat(bench.post("cuts/" + cut + "/move", "{\"stage\":\"as found\"}").statusCode())
        .isEqualTo(422);
    ok("cuts/" + cut + "/move", "{\"stage\":\"as found\",\"session\":\"evening\"}");
    assertThat(bench.get("/api/v1/sessions/1").body()).contains("\"cuts_made\":1");
  }

  @Test
  void aStageBegunByMistakeIsTakenBackAndTheSteelOfABladeNoted() throws Exception {
    ok("sessions", "{\"blade\":\"petty\",\"first_stage\":\"as found\"}");
    ok("session/stages", "{\"name\":\"strop\"}");
    ok("session/inspections", light("left", "none"));
    assertThat(undone()).isEqualTo("look for a burr, left: none (raking light)");
    assertThat(undone()).isEqualTo("stage ‘strop’ begun");
    assertThat(bench.get("/api/v1/sessions/1").body())
        .contains("\"running_stage\":1")
        .doesNotContain("strop");
    ok("blades/steel", "{\"blade\":\"petty\",\"steel\":\"stainless\"}");
    assertThat(bench.get("/api/v1/blades").body()).contains("\"steel\":\"stainless\"");
    ok("blades/steel", "{\"blade\":\"petty\"}");
    assertThat(bench.get("/api/v1/blades").body()).doesNotContain("steel");
  }

  @Test
  void whatWasDoneIsTakenBackLastFirst() throws Exception {
    ok("sessions", "{\"blade\":\"petty\"}");
    long cut = bench.cut(120);
    TestBench.await("the cut on the bench", () -> cuts() == 1);
    ok("session/inspections", light("left", "burr_seen"));
    ok("cuts/" + cut + "/place", "{\"mm\":40}");
    ok("cuts/" + cut + "/set-aside", "{\"reason\":\"slipped\"}");

    assertThat(undone()).isEqualTo("cut " + cut + " set aside");
    assertThat(text()).doesNotContain("slipped").contains("\"place_mm\":40.0");
    assertThat(undone()).isEqualTo("place of cut " + cut);
    assertThat(text()).doesNotContain("\"place_mm\":40.0").contains("burr_seen");
    assertThat(undone()).isEqualTo("look for a burr, left: burr seen (raking light)");
    assertThat(text()).doesNotContain("burr_seen");
    assertThat(bench.post("session/undo", "{}").statusCode()).isEqualTo(422);
  }

  @Test
  void aPageThatSleptDoesNotWriteIntoTheWrongStage() throws Exception {
    ok("sessions", "{\"blade\":\"petty\",\"name\":\"one\"}");
    ok("session/stages", "{\"name\":\"stropped\"}");
    String late =
        light("left", "none").replace("}", ",\"session\":\"one\",\"stage\":\"as found\"}");
    assertThat(bench.post("session/inspections", late).body())
        .contains(
            "stage as found is not the current one any more, stropped is: nothing was changed");
  }

  @Test
  void whatAnotherProgramWritesShowsToo() throws Exception {
    ok("sessions", "{\"blade\":\"petty\",\"name\":\"one\"}");
    try (Store other = Store.open(folder.resolve("data"), Clock.systemUTC())) {
      other.journal().begin("one", "stropped elsewhere");
    }
    TestBench.await("the stage", () -> text().contains("stropped elsewhere"));
  }

  @Test
  void anEdgeLengthIsNotedOfTheBlade() throws Exception {
    ok("sessions", "{\"blade\":\"petty\",\"edge_length_mm\":150}");
    assertThat(session()).containsEntry("edge_length_mm", 150.0);
    ok("session/close", "{}");
    ok("sessions", "{\"blade\":\"petty\",\"edge_length_mm\":148,\"name\":\"two\"}");
    assertThat(session()).containsEntry("edge_length_mm", 148.0);
    ok("session/close", "{}");
    ok("sessions", "{\"blade\":\"petty\",\"name\":\"three\"}");
    assertThat(session()).containsEntry("edge_length_mm", 148.0);
  }

  @Test
  void onlyTheHeadOfAStreamIsNotGiven() throws Exception {
    HttpRequest.Builder head =
        HttpRequest.newBuilder(URI.create(bench.address("/api/v1/events")))
            .method("HEAD", HttpRequest.BodyPublishers.noBody());
    assertThat(send(head).statusCode()).isEqualTo(405);
  }

  @Test
  void hostileTextStaysText() throws Exception {
    ok("sessions", "{\"blade\":\"</script><img src=x onerror=alert(1)>\"}");
    HttpResponse<String> answer = bench.get("/api/v1/bench");
    assertThat(answer.headers().firstValue("Content-Type")).contains("application/json");
    assertThat(JSON.std.mapFrom(answer.body()).toString()).contains("<img src=x onerror=alert(1)>");
    assertThat(bench.get("/").body()).doesNotContain("onerror");
  }

  @Test
  void cutsArePaged() throws Exception {
    for (int i = 0; i < 5; i++) {
      bench.cut(100 + i);
    }
    assertThat(ids("limit=2")).containsExactly(5, 4);
    assertThat(ids("limit=2&before=4")).containsExactly(3, 2);
    for (String bad : List.of("limit=0", "limit=501", "limit=x", "before=99", "before=-1")) {
      assertThat(bench.get("/api/v1/cuts?" + bad).statusCode()).as(bad).isEqualTo(422);
    }
    assertThat(bench.get("/api/v1/cuts/99").statusCode()).isEqualTo(404);
  }

  /** Each answer would; on a busy machine some do all the same. */
  @Test
  void aKeptConnectionDoesNotWaitForAcknowledgements() throws Exception {
    bench.get("/api/v1/state");
    List<Long> nanos = new ArrayList<>();
    for (int i = 0; i < 20; i++) {
      long begin = System.nanoTime();
      bench.get("/api/v1/state");
      nanos.add(System.nanoTime() - begin);
    }
    nanos.sort(null);
    assertThat(nanos.get(5)).as("ns of the faster quarter").isLessThan(30_000_000L);
  }

  private String undone() throws Exception {
    return (String) JSON.std.mapFrom(ok("session/undo", "{}")).get("undone");
  }

  private static String light(String side, String finding) {
    return "{\"method\":\"raking_light\",\"side\":\""
        + side
        + "\",\"finding\":\""
        + finding
        + "\"}";
  }

  private String ok(String path, String json) throws Exception {
    HttpResponse<String> answer = bench.post(path, json);
    assertThat(answer.statusCode()).as(answer.body()).isEqualTo(200);
    return answer.body();
  }

  private String text() throws Exception {
    return bench.get("/api/v1/bench").body();
  }

  @SuppressWarnings("unchecked")
  private Map<String, Object> session() throws Exception {
    return (Map<String, Object>) JSON.std.mapFrom(text()).get("session");
  }

  private int cuts() throws Exception {
    return ((List<?>) session().get("cuts")).size();
  }

  private List<Integer> ids(String query) throws Exception {
    List<?> cuts =
        (List<?>) JSON.std.mapFrom(bench.get("/api/v1/cuts?" + query).body()).get("cuts");
    return cuts.stream().map(cut -> (Integer) ((Map<?, ?>) cut).get("id")).toList();
  }

  private HttpResponse<String> send(HttpRequest.Builder request) throws Exception {
    return bench.client.send(request.build(), HttpResponse.BodyHandlers.ofString());
  }

  private String raw(String head) throws IOException {
    return raw(head, "");
  }

  private String raw(String head, String body) throws IOException {
    try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), bench.page.portNumber())) {
      String text = head + "Connection: close\r\n\r\n" + body;
      socket.getOutputStream().write(text.getBytes(StandardCharsets.ISO_8859_1));
      return new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  @Test
  void mistakesAreMendedInAnOpenAndAnEndedSession() throws Exception {
    bench.post("sessions", "{\"blade\":\"petty\",\"name\":\"one\"}");
    final long early = bench.cut(120);
    bench.post("session/stages", "{\"name\":\"deburrd\"}");
    bench.post("session/steps", "{\"abrasive\":\"rod\",\"grit\":1200,\"pressure\":\"light\"}");
    long late = bench.cut(90);
    bench.post("session/close", "{}");

    assertThat(post("sessions/1/stages/rename", "{\"stage\":\"2\",\"name\":\"deburred\"}"))
        .isEqualTo(200);
    assertThat(post("cuts/" + late + "/move", "{\"stage\":\"as found\"}")).isEqualTo(200);
    assertThat(post("sessions/1/rename", "{\"name\":\"evening\"}")).isEqualTo(200);
    assertThat(post("sessions/1/reopen", "{}")).isEqualTo(200);
    assertThat(post("sessions/1/blade", "{\"blade\":\"other\"}")).isEqualTo(422);
    assertThat(post("sessions/9/reopen", "{}")).isEqualTo(422);
    bench.post("cuts/" + early + "/set-aside", "{\"reason\":\"slipped\"}");
    assertThat(post("cuts/" + early + "/count-again", "{}")).isEqualTo(200);

    Map<String, Object> session = JSON.std.mapFrom(bench.get("/api/v1/sessions/1").body());
    assertThat(session).containsEntry("name", "evening").doesNotContainKey("closed");
    Map<?, ?> first = (Map<?, ?>) ((List<?>) session.get("stages")).get(0);
    Map<?, ?> second = (Map<?, ?>) ((List<?>) session.get("stages")).get(1);
    assertThat(first.get("cuts_made")).isEqualTo(2);
    assertThat(second.get("name")).isEqualTo("deburred");
    Map<?, ?> step = (Map<?, ?>) ((List<?>) second.get("steps")).get(0);
    assertThat(step.get("grit")).isEqualTo(1200);
    assertThat(post("sessions/1/entries/" + step.get("entry") + "/withdraw", "{}")).isEqualTo(200);
    assertThat(post("sessions/1/stages/merge", "{\"stage\":\"deburred\",\"into\":\"as found\"}"))
        .isEqualTo(200);
    assertThat(bench.get("/api/v1/sessions/1").body()).doesNotContain("1200", "\"deburred\"");
  }

  private int post(String path, String json) throws Exception {
    return bench.post(path, json).statusCode();
  }

  @Test
  void twoStagesAreComparedAndWhatLacksCutsSaysSo() throws Exception {
    bench.post("sessions", "{\"blade\":\"petty\",\"name\":\"one\"}");
    for (double gramForce : new double[] {120, 124, 119, 122}) {
      bench.cut(gramForce);
    }
    bench.post("session/stages", "{\"name\":\"stropped\"}");
    String address = "/api/v1/sessions/1/comparison?first=as%20found&second=stropped";
    HttpResponse<String> few = bench.get(address);
    assertThat(few.statusCode()).isEqualTo(422);
    assertThat(few.body()).contains("'stropped' has 0 counting cuts");
    for (double gramForce : new double[] {90, 93, 91, 92}) {
      bench.cut(gramForce);
    }
    assertThat(bench.get(address).body()).contains("\"change\":\"lower\"");
    assertThat(bench.get("/api/v1/sessions/1/progression.svg").body()).contains("<svg");
    assertThat(bench.get("/api/v1/blades/history?blade=petty").body())
        .contains("\"stage\":\"stropped\"");
    assertThat(bench.get("/api/v1/blades/history.svg?blade=petty").body()).contains("<svg");
  }

  private static List<String> paths(String method) throws IOException {
    try (InputStream in = PageFiles.class.getResourceAsStream("/snick/view/openapi.json")) {
      Map<?, ?> paths = (Map<?, ?>) JSON.std.mapFrom(in).get("paths");
      return paths.entrySet().stream()
          .filter(path -> ((Map<?, ?>) path.getValue()).containsKey(method))
          .map(path -> (String) path.getKey())
          .toList();
    }
  }
}
