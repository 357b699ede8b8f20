package snick.view;

import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.function.BooleanSupplier;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.StaleElementReferenceException;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.interactions.Actions;
import org.openqa.selenium.interactions.PointerInput;
import org.openqa.selenium.interactions.Sequence;
import org.openqa.selenium.logging.LogEntry;
import org.openqa.selenium.logging.LogType;
import org.openqa.selenium.logging.LoggingPreferences;
import org.openqa.selenium.support.ui.WebDriverWait;

/** Debian's Chromium without a window, in an empty profile of its own. */
public final class Browser implements AutoCloseable {
  private static final Path CHROMIUM = Path.of("/usr/bin/chromium");
  private static final Path DRIVER = Path.of("/usr/bin/chromedriver");
  private static final int MOST_TABS = 200;
  private static final Duration PATIENCE = Duration.ofSeconds(30);

  /** The driver needs no bindings for the browser's own version: what is used is plain text. */
  private static final Logger SELENIUM = Logger.getLogger("org.openqa.selenium");

  static {
    SELENIUM.setLevel(Level.SEVERE);
  }

  private final ChromeDriver driver;

  private Browser(ChromeDriver driver) {
    this.driver = driver;
  }

  public static boolean installed() {
    return Files.isExecutable(CHROMIUM) && Files.isExecutable(DRIVER);
  }

  /** A browser that saves what is downloaded in the folder of its profile. */
  public static Browser start(Path emptyProfile) {
    return start(emptyProfile, LogType.BROWSER);
  }

  /**
   * The same; what it asks for is noted, all of the page's doings with it, for {@link #requests}.
   */
  static Browser noting(Path emptyProfile) {
    return start(emptyProfile, LogType.BROWSER, LogType.PERFORMANCE);
  }

  private static Browser start(Path emptyProfile, String... logTypes) {
    LoggingPreferences logs = new LoggingPreferences();
    List.of(logTypes).forEach(type -> logs.enable(type, Level.ALL));
    ChromeOptions options = new ChromeOptions();
    options.setBinary(CHROMIUM.toFile());
    options.setExperimentalOption(
        "prefs", Map.of("download.default_directory", emptyProfile.toString()));
    options.setCapability("goog:loggingPrefs", logs);
    options.addArguments(
        "--headless",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-quic",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
        "--hide-scrollbars",
        "--user-data-dir=" + emptyProfile);
    ChromeDriverService service =
        new ChromeDriverService.Builder().usingDriverExecutable(DRIVER.toFile()).build();
    return new Browser(new ChromeDriver(service, options));
  }

  public void open(String address) {
    driver.get(address);
  }

  void reload() {
    driver.navigate().refresh();
  }

  WebElement find(String css) {
    return driver.findElement(By.cssSelector(css));
  }

  String text(String css) {
    return find(css).getText();
  }

  boolean shown(String css) {
    return driver.findElements(By.cssSelector(css)).stream().anyMatch(WebElement::isDisplayed);
  }

  void click(String css) {
    find(css).click();
  }

  void type(String css, String text) {
    find(css).clear();
    find(css).sendKeys(text);
  }

  /** A finger on the middle of {@code css}. */
  void tap(String css) {
    WebElement target = find(css);
    toTheMiddle(target);
    PointerInput finger = new PointerInput(PointerInput.Kind.TOUCH, "finger");
    Sequence tap = new Sequence(finger, 0);
    tap.addAction(
        finger.createPointerMove(Duration.ZERO, PointerInput.Origin.fromElement(target), 0, 0));
    tap.addAction(finger.createPointerDown(PointerInput.MouseButton.LEFT.asArg()));
    tap.addAction(finger.createPointerUp(PointerInput.MouseButton.LEFT.asArg()));
    driver.perform(List.of(tap));
  }

  private void toTheMiddle(WebElement target) {
    driver.executeScript("arguments[0].scrollIntoView({block: 'center'})", target);
  }

  /** Walks by the tabulator key until {@code css} has the focus, then presses {@code keys}. */
  void byKeys(String css, CharSequence... keys) {
    for (int i = 0; i < MOST_TABS; i++) {
      boolean there =
          Boolean.TRUE.equals(run("return document.activeElement.matches(arguments[0])", css));
      if (there && typed(keys)) {
        return;
      }
      new Actions(driver).sendKeys(Keys.TAB).perform();
    }
    throw new AssertionError(css + " is not reached by the tabulator key");
  }

  /** Presses {@code keys} where the focus is; false if the page just drew that place anew. */
  private boolean typed(CharSequence... keys) {
    try {
      WebElement here = driver.switchTo().activeElement();
      if ("file".equals(here.getAttribute("type"))) {
        new Actions(driver).sendKeys(keys).perform(); // to it, the driver would give a file's name
      } else {
        here.sendKeys(keys);
      }
      return true;
    } catch (StaleElementReferenceException e) {
      return false;
    }
  }

  /** One key, with nothing in focus. */
  void key(String key) {
    find("body").sendKeys(key);
  }

  /** Waits until {@code css} holds {@code text}: asks the page itself, then as a person sees it. */
  void awaitText(String css, String text) {
    await(
        css + " with '" + text + "'",
        () -> holds(css, text) && shown(css) && text(css).contains(text));
  }

  /** In one question, where {@link #shown} and {@link #text} are several and each a long script. */
  private boolean holds(String css, String text) {
    return Boolean.TRUE.equals(
        run(
            """
            const there = document.querySelector(arguments[0]);
            return there && there.innerText.replace(/\\s+/g, ' ').includes(arguments[1]);
            """,
            css,
            text));
  }

  void await(String what, BooleanSupplier condition) {
    new WebDriverWait(driver, PATIENCE, Duration.ofMillis(50))
        .ignoring(StaleElementReferenceException.class)
        .withMessage(what)
        .until(d -> condition.getAsBoolean());
  }

  Object run(String script, Object... arguments) {
    return driver.executeScript(script, arguments);
  }

  public double number(String script) {
    return ((Number) run(script)).doubleValue();
  }

  /** Lays the page out {@code width} px wide, in light or dark. */
  public void shape(int width, int height, String scheme) {
    driver.executeCdpCommand(
        "Emulation.setDeviceMetricsOverride",
        Map.of("width", width, "height", height, "deviceScaleFactor", 1, "mobile", false));
    driver.executeCdpCommand(
        "Emulation.setEmulatedMedia",
        Map.of("features", List.of(Map.of("name", "prefers-color-scheme", "value", scheme))));
  }

  /** The whole page as a picture. */
  void picture(Path file) throws IOException {
    picture(file, true);
  }

  /** What is on the screen with the page at its top, as a picture. */
  void screen(Path file) throws IOException {
    run("window.scrollTo(0, 0)");
    picture(file, false);
  }

  /** The page as it is printed on the paper that it asks for, in PDF. */
  public byte[] printed() {
    Map<String, Object> pdf =
        driver.executeCdpCommand("Page.printToPDF", Map.of("preferCSSPageSize", true));
    return Base64.getDecoder().decode((String) pdf.get("data"));
  }

  private void picture(Path file, boolean whole) throws IOException {
    Map<String, Object> shot =
        driver.executeCdpCommand(
            "Page.captureScreenshot", Map.of("format", "png", "captureBeyondViewport", whole));
    Files.createDirectories(file.getParent());
    Files.write(file, Base64.getDecoder().decode((String) shot.get("data")));
  }

  /** What axe-core finds serious or critical, one line each. */
  List<String> seriousFindings() {
    if (!Boolean.TRUE.equals(run("return 'axe' in window"))) {
      run(axe());
    }
    Object found =
        driver.executeAsyncScript(
            """
            const done = arguments[arguments.length - 1];
            axe.run({ resultTypes: ['violations'] }).then((r) => done(r.violations
              .filter((v) => v.impact === 'serious' || v.impact === 'critical')
              .map((v) => v.id + ': ' + v.nodes.map((n) => n.html).join(' | '))));
            """);
    return ((List<?>) found).stream().map(Object::toString).toList();
  }

  private static String axe() {
    try (InputStream in = Browser.class.getResourceAsStream("/axe.min.js")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** What the console said since last asked, warnings and worse. */
  List<String> complaints() {
    return driver.manage().logs().get(LogType.BROWSER).getAll().stream()
        .filter(entry -> entry.getLevel().intValue() >= Level.WARNING.intValue())
        .map(LogEntry::getMessage)
        .toList();
  }

  /** Every address that was asked for since last asked, of a browser that is {@link #noting}. */
  List<String> requests() throws IOException {
    List<String> addresses = new ArrayList<>();
    for (LogEntry entry : driver.manage().logs().get(LogType.PERFORMANCE)) {
      Map<?, ?> message = (Map<?, ?>) JSON.std.mapFrom(entry.getMessage()).get("message");
      if (message.get("method").equals("Network.requestWillBeSent")) {
        Map<?, ?> request = (Map<?, ?>) ((Map<?, ?>) message.get("params")).get("request");
        addresses.add((String) request.get("url"));
      }
    }
    return addresses;
  }

  @Override
  public void close() {
    driver.quit();
  }
}
