package snick.view;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;
import org.openqa.selenium.support.ui.Select;
import snick.Needs;
import snick.daemon.Pipeline;
import snick.daemon.Recorder;
import snick.daemon.Scale;
import snick.exchange.check.PackageCheck;
import snick.port.PortAddress;
import snick.quantity.Mass;
import snick.store.database.Watch;
import snick.virtualrig.ServedRig;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.line.Pacer;
import snick.virtualrig.script.Action;
import snick.virtualrig.script.KnifeScenario;
import snick.virtualrig.script.Script;
import snick.virtualrig.settings.RigSettings;

/**
 * The whole evening from the page, without a shell: look at the rig, calibrate it, check it, a
 * session of three stages, a verdict, a report, a package. Once by keys alone on a wide screen,
 * once by touch alone on a phone. Knife and figures are invented.
 */
class EveningFromThePageIT {
  private static final Path PICTURES = Path.of("target", "bench-page");
  private static final Pattern GRAMS = Pattern.compile("put on (\\d+) g", Pattern.CASE_INSENSITIVE);
  private static final double RIG_SPEED = 12;

  @TempDir Path folder;

  private ServedRig rig;
  private Recorder recorder;
  private Browser browser;
  private Hand hand;
  private String shape;

  /** How the person acts. */
  private interface Hand {
    void press(String css);

    void type(String css, String text);
  }

  private final class Fingers implements Hand {
    @Override
    public void press(String css) {
      browser.tap(css);
    }

    @Override
    public void type(String css, String text) {
      browser.tap(css);
      browser.type(css, text);
    }
  }

  private final class KeysAlone implements Hand {
    @Override
    public void press(String css) {
      browser.byKeys(css, browser.find(css).getTagName().equals("input") ? Keys.SPACE : Keys.ENTER);
    }

    @Override
    public void type(String css, String text) {
      browser.byKeys(css, Keys.chord(Keys.CONTROL, "a"), text);
    }
  }

  @BeforeEach
  void start() throws Exception {
    Needs.tool(Browser.installed(), "no chromium and chromium-driver", "the evening in a browser");
    rig =
        new VirtualRig(RigSettings.USUAL, 1)
            .serveOnTcp(
                0, Pacer.of(System::nanoTime, RIG_SPEED), VirtualRig.WhenFull.DROP, truth -> {});
    recorder =
        Recorder.start(
            new Recorder.Settings(
                List.of(PortAddress.parse(rig.port())),
                115_200,
                Pipeline.Settings.defaults(),
                folder.resolve("data"),
                folder.resolve("run"),
                OptionalInt.of(0),
                "test"),
            recording -> Scale.none(List.of()),
            new Recorder.Audience(cut -> {}, word -> {}),
            Clock.systemUTC());
    browser = Browser.start(folder.resolve("profile"));
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
  void byKeysAloneOnAWideScreen() throws Exception {
    hand = new KeysAlone();
    evening(1280, 1000);
  }

  @Test
  void byTouchAloneOnAPhone() throws Exception {
    hand = new Fingers();
    evening(390, 844);
  }

  private void evening(int width, int height) throws Exception {
    shape = Integer.toString(width);
    browser.shape(width, height, "light");
    browser.open("http://127.0.0.1:" + recorder.httpPort().orElseThrow() + "/");
    browser.awaitText("#rig-line", "Recording");
    lookCalibrateCheck();
    threeStages();
    browser.screen(PICTURES.resolve("page-" + shape + ".png"));
    mend();
    endByTwoPresses();
    reportAndPackage();
    assertThat(browser.complaints()).isEmpty();
  }

  private void lookCalibrateCheck() throws Exception {
    hand.press("#to-rig");
    hand.type("#look-seconds", "5");
    hand.press("#look-form button");
    browser.awaitText("#work-body", "noise");
    look("look");
    hand.press("#work-close");
    calibrate();
    hand.press("#check-form button");
    while (!browser.text("#work-body").contains("imits")) {
      step();
    }
    assertThat(browser.text("#work-body")).contains("Within limits").contains("% may be");
    look("checked");
    assertThat(browser.text("#work-off")).contains("Take everything off");
    rig.perform(Script.of(Action.Hang.nothing(), new Action.Rest(1))).get();
    hand.press("#work-close");
  }

  private void calibrate() throws Exception {
    browser.await("the forms", () -> browser.shown("#calibrate-form"));
    hand.type("#calibrate-masses", "50 100 200");
    hand.press("#calibrate-anywhere");
    hand.press("#calibrate-form summary");
    hand.type("#calibrate-runs", "1");
    hand.type("#calibrate-hold", "0");
    judge("calibrate");
    hand.press("#calibrate-form .main-act");
    step();
    hand.press("#work-confirm");
    browser.awaitText(".refused", "the same as before");
    judge("refused");
    while (!browser.text("#work-body").contains("Calibrated")) {
      step();
    }
    browser.await("the curve", () -> drawn("#work-body img"));
    look("calibrated");
    hand.press("#work-close");
    browser.awaitText("#calibration-list", "0 to 2");
  }

  /** Does what is asked for, says so, and waits until it is read. */
  private void step() throws Exception {
    browser.await("asked or done", () -> !asked().isEmpty());
    String asked = asked();
    if (asked.equals("done")) {
      return;
    }
    Matcher grams = GRAMS.matcher(asked);
    Action hang =
        grams.find()
            ? new Action.Hang(Mass.ofGrams(Double.parseDouble(grams.group(1))))
            : Action.Hang.nothing();
    rig.perform(Script.of(hang, new Action.Rest(1))).get();
    hand.press("#work-confirm");
    browser.await("read: " + asked, () -> !List.of("", asked).contains(asked()));
  }

  /** What the person is asked to do; {@code done} after all, empty while a reading settles. */
  private String asked() {
    return (String)
        browser.run(
            """
            const shown = (css) => document.querySelector('#work-body ' + css);
            return shown('.verdict') ? 'done' : shown('#work-confirm') ? shown('.ask').innerText : '';
            """);
  }

  private void threeStages() throws Exception {
    hand.press("#to-bench");
    hand.type("#blade", "petty");
    hand.press("#start-form .main-act");
    browser.awaitText("#where", "petty · as found");
    stage(0, "burr_seen");
    photo();
    next("deburred");
    hand.press("#step-other summary");
    hand.press("#step-kinds button:nth-child(3)");
    hand.type("#step-grit", "1200");
    hand.press("#step-direction [data-word=edge_leading]");
    hand.press("#step-more");
    hand.press("#step-pressure [data-word=light]");
    look("step");
    hand.press("#step-form .main-act");
    browser.awaitText(
        "#step-list", "ceramic rod: grit 1200, edge leading, 5 strokes a side, light");
    stage(1, "none");
    next("strop");
    hand.press("#step-recent button");
    browser.awaitText("#step-list", "ceramic rod");
    stage(2, "none");
    browser.awaitText(".verdict", "Keener");
  }

  /** A camera's file; the page makes it smaller and takes out what stands beside the picture. */
  private void photo() throws IOException {
    Path file = folder.resolve("edge.png");
    ImageIO.write(new BufferedImage(2400, 60, BufferedImage.TYPE_INT_RGB), "png", file.toFile());
    browser.find("#inspections [data-photo]").sendKeys(file.toString());
    browser.awaitText("#inspections", "Look at the photo");
  }

  private void stage(int number, String finding) throws Exception {
    rig.perform(KnifeScenario.stages().get(number).script()).get();
    browser.awaitText("#stage-rows .stage-figures", "6 cuts");
    for (String side : List.of("left", "right")) {
      hand.press("[aria-labelledby=side-" + side + "] [data-finding=" + finding + "]");
      browser.awaitText("#inspections", side);
    }
  }

  private void next(String name) {
    int chip = name.equals("deburred") ? 1 : 4;
    hand.press("#stage-usual button:nth-child(" + chip + ")");
    hand.press("#stage-begin");
    browser.awaitText("#where", name);
  }

  private void mend() {
    hand.press("#mend");
    choose("#mend-stage", "strop");
    hand.type("#mend-name", "stropped");
    hand.press("#mend-rename-form button");
    browser.awaitText("#where", "stropped");
    choose("#bench-first", "as found");
    choose("#bench-second", "stropped");
    hand.press("#bench-compare button");
    browser.awaitText("#bench-compared", "stropped against as found");
    assertThat(browser.text("#bench-compared")).contains("Keener").contains("95");
  }

  /** A list of choices is the browser's own; it opens outside of the page. */
  private void choose(String css, String text) {
    new Select(browser.find(css)).selectByVisibleText(text);
  }

  private void endByTwoPresses() throws IOException {
    judge("evening");
    hand.press("#close-session");
    browser.awaitText("#close-session", "Press again");
    assertThat(browser.shown("#ended")).isFalse();
    hand.press("#close-session");
    browser.awaitText("#ended", "Keener");
    look("ended");
    hand.press("#ended-reopen");
    browser.awaitText("#where", "petty · stropped");
    hand.press("#close-session");
    hand.press("#close-session");
    browser.awaitText("#ended", "Keener");
    assertThat(browser.text("#start-title")).contains("another");
  }

  private void reportAndPackage() throws Exception {
    String report = browser.find("#ended-body [data-act=report]").getAttribute("href");
    assertThat((String) browser.run("return fetch(arguments[0]).then((r) => r.text())", report))
        .contains("petty")
        .contains("What it brought")
        .contains("data:image/jpeg");
    hand.press("#ended-body a[href^=\"#sessions\"]");
    browser.await("the plot", () -> drawn("#past-plots > a > img"));
    new Select(browser.find("#package-licence")).selectByValue("CC-BY-4.0");
    judge("session");
    hand.press("#package-form .main-act");
    Path zip = folder.resolve("profile").resolve("session-1.zip");
    browser.await("the package", () -> Files.exists(zip));
    assertThat(PackageCheck.of(zip, Watch.NONE).holds()).isTrue();
    hand.press("#to-sessions");
    browser.await("the list", () -> browser.shown("#session-list a"));
    hand.type("#session-text", "no such blade");
    hand.press("#session-search button");
    browser.await("none", () -> browser.shown("#session-none"));
    bladeAndRig();
    browser.run("location.hash = 'words/k'");
    browser.awaitText(".words .asked", "± and k");
    judge("words");
  }

  /** A blade over its sessions; how the rig answers, as the cuts of the evening told; its ports. */
  private void bladeAndRig() throws IOException {
    hand.press("#to-blades");
    browser.await("the blades", () -> browser.shown("#blade-list a"));
    hand.press("#blade-list a");
    browser.await("its picture", () -> drawn("#blade-picture img"));
    assertThat(browser.text("#blade-visits")).contains("stropped: mean");
    judge("blade");
    hand.press("#to-rig");
    browser.await("the response", () -> drawn("#response-picture"));
    browser.await("the ports", () -> !browser.text("#port-list").isBlank());
    judge("rig");
  }

  private boolean drawn(String css) {
    return browser.shown(css)
        && browser.number(
                "const i = document.querySelector('"
                    + css
                    + "');"
                    + "i.scrollIntoView(); return i.complete ? i.naturalWidth : 0")
            > 0;
  }

  /** A picture; nothing sticks out. */
  private void look(String name) throws IOException {
    browser.picture(PICTURES.resolve(name + "-" + shape + ".png"));
    assertThat(browser.number("return document.documentElement.scrollWidth"))
        .as("nothing sticks out of %s", name)
        .isLessThanOrEqualTo(Integer.parseInt(shape));
  }

  /** As {@link #look}, and what axe-core finds, in light and dark. */
  private void judge(String name) throws IOException {
    look(name);
    for (String scheme : List.of("dark", "light")) {
      browser.shape(Integer.parseInt(shape), shape.equals("390") ? 844 : 1000, scheme);
      assertThat(browser.seriousFindings()).as("axe-core, %s in %s", name, scheme).isEmpty();
    }
  }
}
