package snick.view;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import snick.Pseudo;
import snick.force.budget.Calibration;
import snick.force.reading.RigSetting;
import snick.quantity.SampleRate;
import snick.report.plot.Markup;
import snick.sample.Gap;
import snick.sample.Rail;
import snick.store.StoreReader;
import snick.view.http.Doorkeeper;
import snick.view.http.Route;

/**
 * Every act of the page, refused for every reason that a person can give it, in a language made
 * from the catalog: whatever is English then did not come from there. Only what people type, units
 * and the names of JSON fields may stay.
 */
class TranslatedPageTest extends PseudoPage {
  private long nanos;
  private final Random noise = new Random(5);

  private static String looked(String method, String side, String finding, String more) {
    return "{\"method\":\"%s\",\"side\":\"%s\",\"finding\":\"%s\"%s}"
        .formatted(method, side, finding, more);
  }

  @Test
  void everyActIsRefusedInTheLanguageOfThePage() throws Exception {
    withoutASession();
    inASession();
    mending();
    atTheRig();
    reading();
    atTheDoor();
    Set<String> all =
        bench.page.routes().stream()
            .filter(route -> route.method().equals("POST"))
            .filter(route -> acted.stream().noneMatch(done -> fits(route, done)))
            .map(Route::template)
            .collect(Collectors.toSet());
    assertThat(all).as("acts that were not tried").isEmpty();
    assertThat(english).as("what is not in the catalog").isEmpty();
  }

  private static boolean fits(Route route, String done) {
    return route.match(done.substring("POST ".length())).isPresent();
  }

  private void withoutASession() throws Exception {
    refused("session/close", "{}");
    refused("session/stages", "{\"name\":\"deburred\"}");
    refused("session/steps", "{\"abrasive\":\"abc\"}");
    refused("session/inspections", looked("raking_light", "left", "none", ""));
    refused("session/undo", "{}");
    refused("session/next-place", "{\"mm\":9000}");
    refused("session/next-place", "{\"mm\":\"abc\"}");
    refused("sessions", "{}");
    refused("sessions", "[]");
    refusedNaming("blade", "sessions", "{\"blade\":5}");
    refused("sessions", "{\"blade\":\"%s\"}".formatted("y".repeat(200)));
    refused("sessions", "{\"blade\":\"petty\\u0007\"}");
    refused("sessions", "{\"blade\":\"petty\",\"edge_length_mm\":5000}");
    refused("sessions", "{\"blade\":\"petty\",\"filament_lot\":\"nothing of that name\"}");
    refusedNaming("new", "sessions", "{\"blade\":\"petty\",\"new\":\"abc\"}");
  }

  private void inASession() throws Exception {
    act("sessions", "{\"blade\":\"kitchen knife\",\"name\":\"1\",\"edge_length_mm\":100}");
    List.of(120, 130, 125).forEach(bench::cut);
    refused("sessions", "{\"blade\":\"petty\"}");
    refused("session/stages", "{\"name\":\"as found\"}");
    refused("session/stages", "{\"name\":\"as fuond\"}");
    refused("session/stages", "{\"name\":\"deburred\",\"stage\":\"abc\"}");
    refused("session/stages", "{\"name\":\"deburred\",\"session\":\"abc\"}");
    refusedNaming(
        "method, raking_light, fingertip, magnifier, thin_paper, cotton_drag, nail_drag, free",
        "session/inspections",
        looked("abc", "left", "none", ""));
    refused("session/inspections", looked("thin_paper", "left", "burr_seen", ""));
    refused("session/inspections", looked("raking_light", "left", "tears", ""));
    refused("session/inspections", looked("magnifier", "left", "none", ""));
    refused("session/inspections", looked("raking_light", "left", "none", ",\"magnification\":10"));
    refused("session/inspections", looked("magnifier", "left", "none", ",\"magnification\":0"));
    refused("session/inspections", looked("free", "left", "none", ""));
    refused("session/inspections", looked("raking_light", "left", "none", ",\"place\":\"abc\""));
    refused("session/inspections", looked("raking_light", "left", "none", ",\"place\":\"150mm\""));
    refused("session/steps", "{\"abrasive\":\"abc\",\"grit\":1.5}");
    refused("session/steps", "{\"abrasive\":\"abc\",\"grit\":0}");
    refused("session/steps", "{\"abrasive\":\"abc\",\"micron\":9000}");
    refusedNaming(
        "edge-leading, edge-trailing, alternating",
        "session/steps",
        "{\"abrasive\":\"abc\",\"direction\":\"abc\"}");
    refusedNaming(
        "very-light, light, medium, firm",
        "session/steps",
        "{\"abrasive\":\"abc\",\"pressure\":\"abc\"}");
    refused("session/next-place", "{\"mm\":150}");
    refused("cuts/99/place", "{\"mm\":5}");
    refused("cuts/1/place", "{\"mm\":150}");
    refused("cuts/1/set-aside", "{}");
    refused("cuts/1/set-aside", "{\"reason\":\"%s\"}".formatted("y".repeat(5000)));
    refused("cuts/99/set-aside", "{\"reason\":\"abc\"}");
    act("session/inspections", looked("raking_light", "left", "burr_seen", ""));
    act("session/stages", "{\"name\":\"deburred\"}");
    act("session/steps", "{\"abrasive\":\"abc\",\"grit\":1200}");
    List.of(70, 72, 71).forEach(bench::cut);
  }

  private void mending() throws Exception {
    refused("sessions/9/reopen", "{}");
    refused("sessions/1/reopen", "{}");
    refused("sessions/1/blade", "{\"blade\":\"kitchen knifes\"}");
    refused("sessions/1/filament-lot", "{\"filament_lot\":\"nothing of that name\"}");
    refused("sessions/1/stages/rename", "{\"stage\":\"deburred\",\"name\":\"as found\"}");
    refused("sessions/1/stages/rename", "{\"stage\":\"as fuond\",\"name\":\"abc\"}");
    refused("sessions/1/stages/merge", "{\"stage\":\"deburred\",\"into\":\"deburred\"}");
    refused("sessions/1/entries/99/withdraw", "{}");
    refused("cuts/99/move", "{\"stage\":\"deburred\"}");
    refused("cuts/1/move", "{\"stage\":\"as found\"}");
    refused("cuts/1/move", "{\"stage\":\"nothing of that name\"}");
    refused("cuts/99/count-again", "{}");
    act("session/close", "{}");
    refused("sessions/1/stages/rename", "{\"stage\":\"deburred\",\"name\":\"\"}");
    refused("sessions", "{\"blade\":\"kitchen knifes\"}");
    act("sessions", "{\"blade\":\"petty\",\"name\":\"2\"}");
    refused("sessions/1/rename", "{\"name\":\"2\"}");
    refused("sessions/1/reopen", "{}");
    refused("blades/rename", "{\"blade\":\"petty\",\"name\":\"kitchen knife\"}");
    refused("blades/rename", "{\"blade\":\"nothing of that name\",\"name\":\"abc\"}");
    refused("blades/merge", "{\"blade\":\"petty\",\"into\":\"petty\"}");
    refused("blades/margin", "{\"blade\":\"petty\",\"margin_gf\":-5}");
    refused("blades/edge-length", "{\"blade\":\"petty\"}");
    refused("blades/steel", "{\"blade\":\"petty\",\"steel\":\"%s\"}".formatted("y".repeat(200)));
    refused("blades/edge-length", "{\"blade\":\"petty\",\"edge_length_mm\":9000}");
    act("session/close", "{}");
    photo("sessions/1/inspections/99/photo", "image/png", new byte[] {1, 2, 3});
    photo("sessions/9/inspections/1/photo", "image/jpeg", new byte[] {-1, -40, -1, 0});
    photo("sessions/1/inspections/99/photo", "image/jpeg", new byte[] {-1, -40, -1, 0});
  }

  private void photo(String path, String type, byte[] content) throws Exception {
    HttpResponse<String> answer =
        bench.client.send(
            bench
                .change(path, "")
                .setHeader("Content-Type", type)
                .POST(HttpRequest.BodyPublishers.ofByteArray(content))
                .build(),
            HttpResponse.BodyHandlers.ofString());
    acted.add("POST /api/v1/" + path);
    assertThat(answer.statusCode()).isEqualTo(422);
    told(path, answer);
  }

  private void atTheRig() throws Exception {
    refused("rigs/0/look", "{\"seconds\":1}");
    refused("rigs/7/look", "{}");
    refused("rigs/0/check", "{\"load\":\"100g:M1\"}");
    refused("rigs/0/work/confirm", "{}");
    refused("rigs/0/work/stop", "{}");
    bench.setting = Optional.of(new RigSetting(TestBench.DEVICE, 128, new SampleRate(80), 1));
    refused("rigs/0/check", "{\"load\":\"100g:M1\"}");
    for (String loads :
        List.of(
            "",
            "\"abc\"",
            "\"100g:Q9\"",
            "\"%s\"".formatted("9".repeat(80) + "kg:M1"),
            "\"0g:u=1g\"",
            "\"7g:M1\"",
            "\"1g:M1\",\"500g:M1\"",
            "\"50g:M1\",\"50g:M1\"")) {
      refused("rigs/0/calibration", "{\"anywhere\":true,\"loads\":[%s]}".formatted(loads));
    }
    String loads = "\"loads\":[\"50g:M1\",\"100g:M1\"]";
    refused("rigs/0/calibration", "{" + loads + "}");
    refused("rigs/0/calibration", "{\"latitude_degrees\":95," + loads + "}");
    refused(
        "rigs/0/calibration", "{\"latitude_degrees\":48,\"height_metres\":99000," + loads + "}");
    refused("rigs/0/calibration", "{\"anywhere\":true,\"runs\":99," + loads + "}");
    refused("rigs/0/calibration", "{\"anywhere\":true,\"hold_s\":9999," + loads + "}");
    refused("rigs/0/calibration", "{\"polarity\":3," + loads + "}");
    refused("rigs/0/calibration", "{\"resume\":true}");
    lookAtABadRig();
    calibrate(loads);
    refused("rigs/0/check", "{\"load\":\"500g:M1\"}");
    bench.setting = Optional.of(new RigSetting(TestBench.DEVICE, 64, new SampleRate(10), 1));
    refused("rigs/0/check", "{\"load\":\"50g:M1\"}");
  }

  /** Slow, noisy, drifting, stuck, with samples lost and at the rail. */
  private void lookAtABadRig() throws Exception {
    act("rigs/0/look", "{\"seconds\":20}");
    refused("rigs/0/look", "{}");
    refused("sessions", "{\"blade\":\"petty\",\"name\":\"3\"}");
    for (int i = 0; i < 21 * 16; i++) {
      nanos += 62_500_000;
      double hum = 90_000 * Math.sin(2 * Math.PI * 50 * nanos / 1e9 + 1);
      int reading = (int) (hum + 3000.0 * i + 3000 * noise.nextGaussian());
      rig.sample(nanos, i % 40 == 0 ? (1 << 20) - 1 : i % 40 < 12 ? 5 : reading);
    }
    rig.overrange(nanos, Rail.HIGH);
    rig.gap(new Gap(Gap.Cause.LOST_SAMPLES, nanos, nanos + 300_000_000, 8));
    rig.sample(nanos + 300_000_000, 7);
    TestBench.await("findings", () -> state().contains("\"findings\""));
    asked("/api/v1/state");
    assertThat(state()).contains("\"fail\"");
    act("rigs/0/work/stop", "{}");
  }

  private String state() throws IOException, InterruptedException {
    return bench.get("/api/v1/state").body();
  }

  /** First everything is done wrong; then a run is made, and its record read. */
  private void calibrate(String loads) throws Exception {
    String plan = "{\"latitude_degrees\":48,\"runs\":1,\"hold_s\":0,%s}".formatted(loads);
    act("rigs/0/calibration", plan);
    confirm(0, 50);
    refusedReading();
    act("rigs/0/work/confirm", "{}");
    rig.overrange(nanos, Rail.LOW);
    refusedReading();
    confirm(0, 0);
    confirm(0, 0);
    refusedReading();
    confirm(-50, 0);
    refusedReading();
    rig.gap(new Gap(Gap.Cause.DEVICE_RESET, nanos, nanos, 0));
    refusedReading();
    for (double grams : new double[] {0, 50, 70}) {
      confirm(grams, 0);
    }
    refusedReading();
    for (double grams : new double[] {100, 50, 60}) {
      confirm(grams, 0);
    }
    refusedReading();
    confirm(0, 0);
    TestBench.await("a calibration", () -> state().contains("\"calibration\":\"cal-"));
    String id = state().replaceFirst("(?s).*\"calibration\":\"(cal-[^\"]*)\".*", "$1");
    act("rigs/0/work/stop", "{}");
    record(id);
  }

  /** What was written into it when it was made stays as it was written. */
  private void record(String id) throws Exception {
    String page = bench.get("/api/v1/calibrations/" + id + "/record").body();
    assertThat(page).contains(Pseudo.of("Uncertainty budget"), Pseudo.of("one run only"));
    List<String> written = new ArrayList<>(TYPED);
    written.add(id);
    try (StoreReader store = StoreReader.open(folder.resolve("data"))) {
      Calibration made = store.calibration(id).orElseThrow().calibration();
      made.terms().forEach(term -> written.add(Markup.escaped(term.basis())));
      written.add(Markup.escaped(made.basis()));
    }
    written.addAll(
        List.of("latitude 48.000°, height 0 m, normal formula", "class M1, limit", "mg"));
    held("record", TAG.matcher(page).replaceAll(" "), written);
  }

  private void confirm(double grams, double creepCounts) throws Exception {
    act("rigs/0/work/confirm", "{}");
    for (int i = 0; i < 80 * (creepCounts > 0 ? 62 : 6); i++) {
      nanos += 12_500_000;
      rig.sample(nanos, (int) (84_000 + 437 * grams + creepCounts * i + 30 * noise.nextGaussian()));
    }
  }

  private void refusedReading() throws Exception {
    TestBench.await("a refusal", () -> state().contains("\"refused\""));
    asked("/api/v1/state");
  }

  private void reading() throws Exception {
    for (String path :
        List.of(
            "bench",
            "state",
            "cuts?limit=abc",
            "cuts?before=99",
            "cuts/99",
            "cuts/abc",
            "cuts/99/cut.svg",
            "cuts/1/cut.svg",
            "sessions",
            "sessions/1",
            "sessions/9",
            "sessions/2/progression.svg",
            "sessions/1/progression.svg",
            "sessions/1/stage.svg",
            "sessions/1/stage.svg?stage=abc",
            "sessions/1/comparison",
            "sessions/2/comparison?first=as%20found&second=as%20found",
            "sessions/1/comparison?first=as%20found&second=deburred",
            "sessions/1/report",
            "sessions/1/package?licence=%21",
            "sessions/1/package?licence=CC0-1.0&title=" + "y".repeat(300),
            "blades/history",
            "blades/history?blade=kitchen%20knife",
            "blades/history?blade=nothing%20of%20that%20name",
            "blades/history.svg?blade=petty",
            "calibrations/abc/record",
            "calibrations/abc/curve.svg",
            "photos/abc",
            "rigs/9/checks.svg",
            "rigs/0/response.svg",
            "abc")) {
      asked("/api/v1/" + path);
    }
  }

  private void atTheDoor() throws Exception {
    refusedNaming("GET", "cuts", "{}");
    refused("sessions", "{\"blade\":\"" + "y".repeat(1 << 17) + "\"}");
    told("old token", send(bench.change("sessions", "{}").setHeader(Doorkeeper.TOKEN_HEADER, "1")));
    told("another type", send(bench.change("sessions", "{}").setHeader("Content-Type", "text/a")));
    told("another page", send(bench.change("sessions", "{}").setHeader("Origin", "http://a.b")));
    told("another act", send(bench.change("sessions", "{}").DELETE()));
    told(
        "another name",
        send(HttpRequest.newBuilder(URI.create(bench.address("/"))).setHeader("Accept", "*/*")));
  }

  private HttpResponse<String> send(HttpRequest.Builder request) throws Exception {
    return bench.client.send(request.build(), HttpResponse.BodyHandlers.ofString());
  }
}
