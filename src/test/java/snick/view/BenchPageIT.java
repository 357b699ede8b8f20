package snick.view;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.OptionalInt;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.Needs;
import snick.daemon.AnnouncedCut;
import snick.daemon.Pipeline;
import snick.daemon.Recorder;
import snick.daemon.Scale;
import snick.daemon.link.RigInUseException;
import snick.force.budget.Calibration;
import snick.port.PortAddress;
import snick.virtualrig.ServedRig;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.line.Pacer;
import snick.virtualrig.script.Action;
import snick.virtualrig.script.KnifeScenario;
import snick.virtualrig.script.Script;
import snick.virtualrig.settings.RigSettings;

/** The page in a real browser, on a virtual rig. Knife and figures are invented. */
class BenchPageIT {
  private static final Path PICTURES = Path.of("target", "bench-page");
  private static final double RIG_SPEED = 3;
  private static final int CUTS_A_STAGE = 6;

  private static final Scale BY_LINE =
      Scale.by(Calibration.countsPerGramForce(437.25, Instant.EPOCH));

  @TempDir Path folder;

  private final List<Double> endedMillis = Collections.synchronizedList(new ArrayList<>());
  private ServedRig rig;
  private Recorder recorder;
  private Browser browser;

  @BeforeEach
  void start() throws IOException, RigInUseException {
    Needs.tool(Browser.installed(), "no chromium and chromium-driver", "the page in a browser");
    rig =
        new VirtualRig(RigSettings.USUAL, 1)
            .serveOnTcp(
                0, Pacer.of(System::nanoTime, RIG_SPEED), VirtualRig.WhenFull.DROP, truth -> {});
    recorder = record(0, BY_LINE);
    browser = Browser.noting(folder.resolve("profile"));
    browser.shape(1280, 1000, "light");
  }

  private Recorder record(int httpPort, Scale scale) throws IOException, RigInUseException {
    return Recorder.start(
        new Recorder.Settings(
            List.of(PortAddress.parse(rig.port())),
            115_200,
            Pipeline.Settings.defaults(),
            folder.resolve("data"),
            folder.resolve("run"),
            OptionalInt.of(httpPort),
            "test"),
        recording -> scale,
        new Recorder.Audience(this::announced, word -> {}),
        Clock.systemUTC());
  }

  private void announced(AnnouncedCut cut) {
    Instant now = Instant.now();
    double millis = now.getEpochSecond() * 1e3 + now.getNano() / 1e6;
    endedMillis.add(millis - cut.latencyNanos() / 1e6);
  }

  @AfterEach
  void stop() {
    if (browser != null) {
      browser.close();
    }
    if (recorder != null) {
      recorder.close();
    }
    if (rig != null) {
      rig.close();
    }
  }

  @Test
  void anEveningAtTheBench() throws Exception {
    openAndStart();
    cutStage(0);
    inspectBothSides("burr_seen");
    browser.type("#stage-name", "deburred");
    browser.click("#stage-form button");
    browser.awaitText("#where", "deburred");
    cutStage(1);
    browser.awaitText(".verdict", "Keener");
    placeSetAsideAndTakeBack();
    assertThat(browser.complaints()).isEmpty();

    reloadShowsTheSame();
    everyWidthIsReadable();
    assertThat(browser.complaints()).isEmpty();
    loseAndRegainTheDaemon();
    assertThat(browser.requests()).isNotEmpty().allMatch(BenchPageIT::staysHere);
  }

  @Test
  void withoutACalibrationCutsAreCountsAndALostRigIsSaidInWords() throws Exception {
    recorder.close();
    recorder = record(0, Scale.none(List.of()));
    browser.open(address());
    browser.awaitText("#rig-line", "not calibrated");
    browser.type("#blade", "petty");
    browser.click("#start-form button");
    browser.awaitText("#where", "petty");
    rig.perform(Script.of(new Action.Rest(1), Action.Cut.ofGramForce(120, 110), new Action.Rest(1)))
        .get();
    browser.awaitText("#last-cut-body", "No calibration: no force");
    browser.awaitText("#coach", "alibrate the rig first");
    browser.awaitText("#stage-rows", "1 cut made, without a force that counts");
    browser.picture(PICTURES.resolve("uncalibrated-1280-light.png"));
    rig.close();
    browser.awaitText("#rig-line", "Unplugged");
    assertThat(browser.complaints()).isEmpty();
  }

  private static boolean staysHere(String requested) {
    return requested.startsWith("http://127.0.0.1:")
        || requested.startsWith("data:")
        || requested.startsWith("chrome:");
  }

  private String address() {
    return "http://127.0.0.1:" + recorder.httpPort().orElseThrow() + "/";
  }

  private void openAndStart() throws IOException {
    browser.open(address());
    browser.awaitText("#rig-line", "Recording");
    assertThat(browser.text(".cautions")).contains("glove").contains("Eyes").contains("clamped");
    browser.picture(PICTURES.resolve("start-1280-light.png"));
    assertThat(weightBytes()).as("page weight, bytes").isLessThan(300_000);
    watchLastCut();
    browser.type("#blade", "Petty <img src=x onerror=alert(1)>");
    browser.type("#edge-length", "80");
    browser.click("#start-form button");
    browser.awaitText("#where", "Petty <img src=x onerror=alert(1)> · as found");
    browser.click("#place-suggested");
    browser.awaitText("#edge-strip", "next 40");
  }

  private double weightBytes() {
    return browser.number(
        "return performance.getEntriesByType('navigation').concat(performance.getEntriesByType('resource'))"
            + ".filter((e) => !e.name.endsWith('/events')).reduce((sum, e) => sum + e.transferSize, 0)");
  }

  /** Notes, after the frame in which it is painted, when each cut's number is there. */
  private void watchLastCut() {
    browser.run(
        """
        window.seen = [];
        new MutationObserver(() => requestAnimationFrame(() =>
          window.seen.push(performance.timeOrigin + performance.now())))
          .observe(document.getElementById('last-cut-body'), { childList: true });
        """);
  }

  private void cutStage(int stage) throws Exception {
    rig.perform(KnifeScenario.stages().get(stage).script()).get();
    browser.awaitText("#stage-rows", CUTS_A_STAGE + " cuts");
  }

  private void inspectBothSides(String finding) {
    for (String side : List.of("left", "right")) {
      browser.click("[aria-labelledby=side-" + side + "] [data-finding=" + finding + "]");
      browser.awaitText("#inspections", side);
    }
  }

  private void placeSetAsideAndTakeBack() {
    browser.click("#edit-last");
    browser.type("#cut-place", "35");
    browser.click("#cut-place-form button");
    browser.await("a spot at 35 mm", () -> browser.shown(".spot[aria-label*='35 mm']"));
    browser.run("document.activeElement.blur()");
    browser.key("a");
    browser.type("#aside-reason", "slipped");
    browser.click("#aside-form button");
    browser.awaitText("#last-cut-body", "Set aside: slipped");
    browser.awaitText("#stage-rows", "5 cuts");
    browser.click("#undo");
    browser.await("counting again", () -> !browser.text("#last-cut-body").contains("slipped"));
    browser.awaitText("#stage-rows", CUTS_A_STAGE + " cuts");
  }

  private void reloadShowsTheSame() {
    assertThat(latenciesMillis()).as("cuts seen after their end").hasSize(2 * CUTS_A_STAGE);
    String before = everything();
    browser.reload();
    browser.await("the same page", () -> everything().equals(before));
  }

  private List<Double> latenciesMillis() {
    List<Double> latencies = new ArrayList<>();
    List<?> seen = (List<?>) browser.run("return window.seen");
    List<Double> ended = List.copyOf(endedMillis);
    for (double end : ended) {
      seen.stream()
          .map(s -> ((Number) s).doubleValue() - end)
          .filter(late -> late > 0)
          .findFirst()
          .ifPresent(latencies::add);
    }
    Collections.sort(latencies);
    return latencies;
  }

  private String everything() {
    return String.join(
        "\n",
        browser.text("#where"),
        browser.text("#last-cut-body"),
        browser.text("#edge-strip"),
        browser.text("#stage-rows"),
        browser.text("#inspections"));
  }

  private void everyWidthIsReadable() throws IOException {
    for (String scheme : List.of("light", "dark")) {
      for (int width : new int[] {390, 1280, 2560}) {
        browser.shape(width, width == 390 ? 844 : 1000 * width / 1600, scheme);
        browser.await("a plot", () -> browser.shown("#trace canvas"));
        browser.picture(PICTURES.resolve("bench-" + width + "-" + scheme + ".png"));
        assertThat(browser.number("return document.documentElement.scrollWidth"))
            .as("nothing sticks out at " + width)
            .isLessThanOrEqualTo(width);
        assertThat(browser.seriousFindings()).as("axe-core at %s %s", width, scheme).isEmpty();
      }
    }
    browser.shape(1280, 1000, "light");
  }

  private void loseAndRegainTheDaemon() throws Exception {
    String before = everything();
    int port = recorder.httpPort().orElseThrow();
    recorder.close();
    browser.awaitText("#banner", "Connection lost");
    recorder = record(port, BY_LINE);
    browser.await("no banner", () -> !browser.shown("#banner"));
    browser.awaitText("#rig-line", "Recording");
    browser.await("the same page", () -> everything().equals(before));
    inspectBothSides("none");
  }
}
